// As large as there is room for: the page's rule of size. What the room reads shares one size per
// box; its other roles are set as parts of that in `wall.css`.

const LEAST = 8;
const MOST = 400;

const pen = document.createElement("canvas").getContext("2d");

// How wide words are, in parts of their size.
export function units(words) {
  pen.font = "100px Room";
  return pen.measureText(words).width / 100;
}

export function widest(words) {
  return Math.max(0, ...words.map(units));
}

function fits(box) {
  return box.scrollHeight <= box.clientHeight + 1 && box.scrollWidth <= box.clientWidth + 1;
}

// The largest size at which all in the box stands, in px; it is set there.
export function fit(box, most = MOST) {
  let low = LEAST;
  let high = Math.max(LEAST, Math.floor(most));
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    box.style.fontSize = `${middle}px`;
    if (fits(box)) low = middle;
    else high = middle - 1;
  }
  box.style.fontSize = `${low}px`;
  return low;
}

// Of several ways the one in which the size is the largest, the first of equals. `set` puts a way
// in place and gives the size.
export function largest(ways, set) {
  let best = null;
  for (const way of ways) {
    const size = set(way);
    if (best === null || size > best.size * 1.04) best = { way, size };
  }
  if (best !== null) set(best.way);
}

// The live wall: the clock, what is being done, and a ribbon for each lane.

import { digitsOf, showTime } from "/clock.js";
import { h, placed, said, tied } from "/elements.js";
import { fit, largest, units, widest } from "/fit.js";

const ACROSS = [1, 2, 3, 4];
const STAYS = 2000; // ms after the end for which the clock stands inverted
const FRAMES = 90; // ms between two steps of a ribbon that grows: less can't be seen
const KEY = 0.95; // what a key takes, in parts of the lane's size
const NOTE = 0.34; // notes are so large beside a name
const TO_COME = ["on for 12  +20", "12th  last 9:59"]; // room for them, so that nothing moves
const AIR = 1.35; // between key, name and tally
const MORE_AIR = 0.3; // beside a load, and beside notes
const SHARES = [34, 30, 26, 22, 18]; // what clock and heading may have of the height, of a hundred
const CLOCK = 1.5; // the clock is at least so many times as large as any lane's text

export class WallScreen {
  constructor(state) {
    this.face = h("span", "digits");
    this.dial = h("div", "clock", this.face);
    this.dial.setAttribute("role", "timer");
    this.heading = h("div", "heading fit");
    this.list = h("ol", "lanes");
    this.top = h("header", "top", this.dial, this.heading);
    this.element = h("section", "wall", this.top, this.list);
    this.stepped = 0;
    this.sized = false;
    this.take(state);
    this.fillHeading();
    this.fillLanes();
  }

  take(state) {
    this.clock = state.clock;
    this.wall = state.wall;
    this.lanes = Array.from({ length: state.lanes || 0 }, (_, n) => state[`lane ${n}`]);
    this.element.classList.toggle("alone", this.lanes.length === 0);
  }

  change(state, names) {
    const before = this.lanes;
    const longest = this.wall.longest_clock;
    this.take(state);
    if (names.includes("wall")) this.fillHeading();
    this.lanes.forEach((lane, n) => {
      if (lane !== before[n]) this.list.children[n].replaceWith(laneOf(lane));
    });
    if (!this.sized) return;
    if (this.wall.longest_clock !== longest) this.size(); // a count-in's digits are few
    else if (names.includes("wall")) this.sizeHeading();
  }

  // -- what stands there ---------------------------------------------------------------------------

  fillHeading() {
    const { wall } = this;
    const alone = this.lanes.length === 0;
    const stations = wall.stations.map((words, n) =>
      h("li", "", h("span", "does", tied(words)), said("span", "standard", wall.standards[n])),
    );
    const lines = alone ? wall.lines.map((words) => h("li", "", words)) : [];
    const cautions = alone ? wall.cautions.map((words) => h("li", "", words)) : [];
    this.left = wall.progress ? h("span", "left", wall.total_left) : null;
    this.heading.replaceChildren(
      ...[
        h("p", "title", h("b", "", wall.title), " ", h("span", "", [wall.words, wall.fitted].filter(Boolean).join("; "))),
        wall.emphasis ? h("p", wall.held ? "shout held" : "shout", wall.emphasis) : null,
        wall.progress ? h("p", "progress", h("span", "", wall.progress), this.left) : null,
        said("p", "head", wall.head),
        stations.length || lines.length ? h("ul", "stations", stations, lines) : null,
        cautions.length ? h("ul", "cautions", cautions) : null,
      ].filter(Boolean),
    );
  }

  fillLanes() {
    this.list.replaceChildren(...this.lanes.map(laneOf));
  }

  // -- how large ------------------------------------------------------------------------------------

  size() {
    this.sized = true;
    this.element.classList.add("sized");
    largest(this.lanes.length ? SHARES : [100], (share) => this.sizeBy(share));
  }

  // The smallest text of the room where the top has this share; 0 where the clock is too small.
  sizeBy(share) {
    if (this.lanes.length) placed(this.element, { "--top": `${share}fr`, "--rest": `${100 - share}fr` });
    const clock = this.sizeClock();
    const heading = this.sizeHeading();
    const lanes = this.lanes.length ? this.sizeLanes() : heading;
    return clock < CLOCK * lanes ? 0 : Math.min(heading, lanes);
  }

  sizeClock() {
    const longest = this.wall.longest_clock || "00";
    const wide = units(longest.replace(/\d/g, "0"));
    const box = this.dial.getBoundingClientRect();
    const most = Math.min(box.height / 0.76, (box.width * 0.97) / wide);
    this.dial.style.fontSize = `${Math.floor(most)}px`;
    return most;
  }

  sizeHeading() {
    const most = this.lanes.length ? this.top.clientHeight / 2.2 : innerHeight / 5;
    return fit(this.heading, most);
  }

  // Names and tallies of all lanes as large as any way to stand lets them be, as in the terminal.
  sizeLanes() {
    const box = this.list.getBoundingClientRect();
    const gap = Math.round(box.height * 0.012) + 2;
    const between = 3 * gap;
    const name = widest(this.lanes.map((lane) => lane.name));
    const tally = Math.max(1.2, widest(this.lanes.flatMap((lane) => [lane.room, lane.tally])));
    const some = this.lanes.some((lane) => lane.bar);
    const load = widest(this.lanes.map((lane) => loadOf(lane))) * 0.7;
    const said = this.lanes.flatMap(notesOf).map((note) => note.words);
    const notes = widest([...said, ...(some ? TO_COME : [])]) * NOTE;
    const needs = KEY + name + tally + AIR + (load ? load + MORE_AIR : 0);
    const beside = needs + notes + MORE_AIR;
    let best = null;
    for (const across of ACROSS.filter((count) => count <= this.lanes.length)) {
      const rows = Math.ceil(this.lanes.length / across);
      const high = (box.height - gap * (rows - 1)) / rows;
      const wide = (box.width - between * (across - 1)) / across;
      const ways = [
        ["beside", Math.min(high * 0.98, (wide * (some ? 0.64 : 0.9)) / beside)],
        ["under", Math.min(high * (some ? 0.74 : 0.95), wide / beside)],
        ["below", Math.min(high * 0.72, wide / needs)],
      ];
      for (const [way, size] of ways) {
        if (best === null || size > best.size * 1.04) best = { across, rows, way, size };
      }
    }
    this.list.className = `lanes ${best.way}`;
    placed(this.list, {
      "--across": best.across,
      "--rows": best.rows,
      "--gap": `${gap}px`,
      "--between": `${between}px`,
      "--size": `${Math.floor(best.size)}px`,
      "--name": `${name + 0.2}em`,
      "--tally": `${tally + 0.1}em`,
      "--load": `${load ? load + 0.3 : 0}em`,
      "--notes": `${notes / NOTE + 0.3}em`,
    });
    return best.size;
  }

  // -- time -------------------------------------------------------------------------------------------

  tick(reading, calm) {
    if (!reading) return;
    const { clock } = this;
    const digits = digitsOf(reading);
    if (this.face.textContent !== digits) this.face.textContent = digits;
    const since = clock.zero === null ? Infinity : this.since(reading);
    this.dial.classList.toggle("inverted", reading.over && since < STAYS);
    if (this.left) {
      const words = this.wall.total_left.replace(/^[\d:]+/, showTime(reading.left));
      if (this.left.textContent !== words) this.left.textContent = words;
    }
    const now = performance.now();
    if (now - this.stepped < FRAMES) return;
    this.stepped = now;
    const elapsed = Math.max(0, reading.elapsed);
    this.list.style.setProperty("--now", calm ? Math.floor(elapsed / 1000) * 1000 : Math.round(elapsed));
  }

  since(reading) {
    if (!reading.over) return 0;
    this.ended = this.ended || performance.now();
    return performance.now() - this.ended;
  }
}

// -- a lane -----------------------------------------------------------------------------------------

function loadOf(lane) {
  return lane.load ? `${lane.load} ${lane.unit}` : "";
}

function notesOf(lane) {
  const notes = [
    { kind: lane.standing, words: [lane.on_for, lane.against].filter(Boolean).join("  ") },
    { kind: "", words: [lane.rank, lane.split && `last ${lane.split}`].filter(Boolean).join("  ") },
    { kind: "now", words: [lane.start, lane.rung].filter(Boolean).join(", ") },
    { kind: "", words: [lane.plates || lane.planned, lane.modification].filter(Boolean).join(", ") },
  ];
  return notes.filter((note) => note.words);
}

function laneOf(lane) {
  const kind = ["lane", lane.standing, lane.out && "out", lane.selected && "selected"];
  const turn = lane.turn ? h("span", `turn ${lane.turn}`, lane.turn === "now" ? "> now" : "waits") : null;
  return h(
    "li",
    kind.filter(Boolean).join(" "),
    h("b", "key", lane.key.toUpperCase()),
    h("span", "name", lane.name),
    h("span", lane.doubtful ? "tally doubtful" : "tally", lane.sign ? h("i", "sign", lane.sign) : null, lane.tally),
    lane.load ? h("span", "load", loadOf(lane)) : null,
    barOf(lane.bar),
    h("div", "notes", turn, notesOf(lane).map((note) => h("span", note.kind, note.words))),
  );
}

function barOf(bar) {
  if (!bar) return h("div", "bar none");
  if ("cap" in bar) return ribbonOf(bar);
  if ("whole" in bar) return shareOf(bar);
  return boxesOf(bar);
}

// Each block one round, as long as it took; the one in progress grows with `--now`.
function ribbonOf(bar) {
  const made = placed(h("div", "bar ribbon"), { "--whole": bar.cap, "--minute": `${6e6 / bar.cap}%` });
  made.setAttribute("aria-hidden", "true");
  let from = 0;
  for (const block of bar.rounds) {
    made.append(blockOf(block.kind.replace(" ", "-"), from, block.end));
    from = block.end;
  }
  if (!bar.stopped) made.append(placed(h("span", "block running"), { "--from": from }));
  made.append(...goalOf(bar));
  return made;
}

function shareOf(bar) {
  const made = placed(h("div", "bar share"), { "--whole": bar.whole });
  made.setAttribute("aria-hidden", "true");
  let from = 0;
  for (const end of bar.rounds.filter((one) => one <= bar.done)) {
    made.append(blockOf("counted", from, end));
    from = end;
  }
  if (bar.done > from) made.append(blockOf("part", from, bar.done));
  for (const end of bar.rounds.filter((one) => one > bar.done && one < bar.whole)) {
    made.append(placed(h("span", "mark"), { "--at": end }));
  }
  made.append(...goalOf(bar));
  if (bar.finish) made.append(h("b", "finish", bar.finish));
  return made;
}

// Where somebody's goal has it by now.
function goalOf(bar) {
  const known = bar.goal !== null && bar.goal !== undefined;
  return known ? [placed(h("span", "goal"), { "--at": bar.goal })] : [];
}

function blockOf(kind, from, end) {
  return placed(h("span", `block ${kind}`), { "--from": from, "--end": end });
}

function boxesOf(bar) {
  const reached = bar.current === null ? bar.numbers.length : bar.current;
  return h(
    "ol",
    "bar boxes",
    bar.numbers.map((number, at) => {
      if (at === bar.current) return h("li", "current", number || "·");
      if (number !== null) return h("li", "given", number);
      if (at < reached) return h("li", "lacking", "?");
      return h("li", "", String(at + 1));
    }),
  );
}

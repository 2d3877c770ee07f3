// The room's wall: what the laptop sends is shown, time is drawn by the page's own clock.

import { LaptopClock, elapsedAt, readingAt } from "/clock.js";
import { h } from "/elements.js";
import { Link } from "/link.js";
import { boardScreen } from "/board.js";
import { cardScreen, saidScreen } from "/messages.js";
import { scoresScreen, summaryScreen } from "/scores.js";
import { RoomSound } from "/sound.js";
import { WallScreen } from "/lanes.js";

const LOST = "No link to the laptop: the clock goes on, counts may be behind";
const FOUND = "The link is back";
const FOUND_STAYS = 4000; // ms

const state = {};
const clock = new LaptopClock();
const room = document.getElementById("room");
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const narrow = matchMedia("(max-width: 760px), (max-aspect-ratio: 3/4)");

let wall = null; // the live wall, as long as it is what is shown
let dirty = false;
let found = 0;

const sound = new RoomSound(clock, document.getElementById("sound"));

const link = new Link(clock, {
  came(parts) {
    Object.assign(state, parts);
    for (const name of Object.keys(parts)) if (parts[name] === null) delete state[name];
    changed(Object.keys(parts));
  },
  stands(up) {
    if (up) found = performance.now();
    show("link", up ? (link && link.lost ? FOUND : "") : LOST);
    document.body.classList.toggle("lost", !up);
    link.lost = !up;
  },
});

function show(id, words) {
  const place = document.getElementById(id);
  if (place.textContent !== words) place.textContent = words;
}

// -- what is shown ------------------------------------------------------------------------------

function changed(names) {
  const only = (test) => names.every(test);
  if (only((name) => name === "time" || name === "foot")) {
    foot();
  } else if (wall && state.screen === "wall" && only((name) => /^(lane |clock|time|wall)/.test(name))) {
    wall.change(state, names);
    foot();
  } else {
    dirty = true;
  }
  if (names.includes("clock")) sound.follow(state.clock);
  aloud();
}

function foot() {
  const time = state.time;
  show("foot", state.foot || "");
  show("time", time ? [time.now, time.end].filter(Boolean).join("  ") : "");
  document.getElementById("time").classList.toggle("over", Boolean(time && time.over));
}

function draw() {
  dirty = false;
  wall = null;
  document.body.classList.toggle("narrow", narrow.matches);
  document.body.dataset.screen = state.screen || "";
  foot();
  const shown = screenNow();
  room.replaceChildren(...[shown.element, state.alone ? h("p", "alone", state.alone) : null].filter(Boolean));
  if (shown.size && !narrow.matches) shown.size();
  if (wall) wall.tick(reading(), calm.matches);
}

function screenNow() {
  if (state.card) return cardScreen(state.card);
  if (state.sharing) return saidScreen(state.sharing[0], state.sharing.slice(1));
  switch (state.screen) {
    case "board":
      return boardScreen(state.board);
    case "settle":
      return scoresScreen(state.settle);
    case "summary":
      return summaryScreen(state.summary, () => (dirty = true));
    case "wall":
      wall = new WallScreen(state);
      return wall;
    default:
      return saidScreen(...(state.said || ["One moment"]));
  }
}

// What a screen reader says by itself: the word beside the clock, and which screen is up.
function aloud() {
  const words =
    state.screen === "wall" && state.wall
      ? [state.wall.title, state.wall.emphasis]
      : state.screen === "settle" && state.settle
        ? [state.settle.title, state.settle.question]
        : state.screen === "board" && state.board
          ? [state.board.name]
          : [state.screen === "summary" ? "The end of the class" : ""];
  show("aloud", (state.card ? [state.card.call] : words).filter(Boolean).join(", "));
}

// -- time ---------------------------------------------------------------------------------------

function reading() {
  if (!state.clock || !clock.known) return null;
  const elapsed = elapsedAt(state.clock, clock.now());
  return { elapsed, ...readingAt(state.clock, elapsed) };
}

function frame() {
  if (dirty) draw();
  if (wall) wall.tick(reading(), calm.matches);
  sound.look();
  if (found && performance.now() - found > FOUND_STAYS) {
    found = 0;
    if (!document.body.classList.contains("lost")) show("link", "");
  }
  requestAnimationFrame(frame);
}

// -- the page's own controls ----------------------------------------------------------------------

const root = document.documentElement;
const look = document.getElementById("look");

function isLight() {
  return getComputedStyle(root).colorScheme === "light";
}

function showLook() {
  look.setAttribute("aria-pressed", String(isLight()));
}

look.addEventListener("click", () => {
  root.dataset.theme = isLight() ? "dark" : "light";
  showLook();
});

let resized = 0;
addEventListener("resize", () => {
  clearTimeout(resized);
  resized = setTimeout(() => (dirty = true), 60);
});
narrow.addEventListener("change", () => (dirty = true));

document.fonts.load("100px Room").finally(() => {
  showLook();
  dirty = true;
  requestAnimationFrame(frame);
});

// For tests: what the page knows.
window.wallPage = { state, clock, reading };

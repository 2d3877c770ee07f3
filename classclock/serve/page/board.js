// The board: the plan of the next segment, and who does it.

import { h, said, tied } from "/elements.js";
import { fit, largest } from "/fit.js";

const SHARES = [0.5, 0.58, 0.66, 0.42]; // of the width that the work has
const ACROSS = [1, 2, 3];

export function boardScreen(board) {
  if (board.lesson) return lessonScreen(board.lesson);
  if (board.lift) return liftScreen(board);
  const work = h("div", "fit work", workOf(board));
  const people = peopleOf(board);
  const element = h("section", people ? "board" : "board alone", work, people);
  return { element, size: () => sizeTwo(element, work, people) };
}

function sizeTwo(element, one, other) {
  if (!other) {
    fit(one, innerHeight / 6);
    return;
  }
  const ways = SHARES.flatMap((share) => ACROSS.map((across) => ({ share, across })));
  largest(ways, ({ share, across }) => {
    element.style.setProperty("--share", `${share}fr ${1 - share}fr`);
    other.style.setProperty("--across", across);
    const rows = Math.ceil(other.childElementCount / across);
    other.style.setProperty("--rows", rows);
    return Math.min(fit(one, innerHeight / 7), fit(other, innerHeight / 7));
  });
}

function workOf(board) {
  return [
    said("p", "place", board.place),
    h("h1", "", board.name),
    said("p", "head", board.head || board.words),
    said("p", "terms", [board.terms, board.expected].filter(Boolean).join("; ")),
    h("ul", "stations", board.stations.map(stationOf), [...board.sets, ...board.lines].map((line) => h("li", "", line))),
    cautionsOf(board),
  ];
}

function stationOf(station) {
  return h(
    "li",
    "",
    h("span", "does", tied(station.words)),
    said("span", "standard", station.standard),
    said("span", "options", station.options.join(", ")),
  );
}

function cautionsOf(board) {
  const words = [board.stop, ...board.cautions].filter(Boolean);
  return words.length ? h("ul", "cautions", words.map((line) => h("li", "", line))) : null;
}

function peopleOf(board) {
  if (!board.lanes.length) return null;
  return h(
    "ol",
    "fit people",
    board.lanes.map((lane) =>
      h(
        "li",
        lane.beside ? "beside" : "",
        h("b", "key", lane.key),
        h("span", "name", lane.name),
        said("span", "does", doesOf(lane)),
      ),
    ),
  );
}

function doesOf(lane) {
  const partners = lane.partners.length ? `with ${lane.partners.join(" and ")}` : "";
  const start = lane.start ? `from ${lane.start}` : "";
  const modified = lane.modification === "as written" ? "" : lane.modification;
  return [partners, start, modified, lane.load].filter(Boolean).join(", ");
}

function lessonScreen(lesson) {
  const box = h(
    "div",
    "fit",
    said("p", "place", lesson.place),
    h("h1", "", lesson.name),
    said("p", "terms", lesson.words),
    said("p", "head", lesson.standard),
    h("ul", "points", lesson.points.map((line) => h("li", "", line))),
    h("ul", "cautions", lesson.cautions.map((line) => h("li", "", line))),
    said("p", "options", lesson.options.join(", ")),
  );
  return { element: h("section", "lesson", box), size: () => fit(box, innerHeight / 7) };
}

function liftScreen(board) {
  const lift = board.lift;
  const work = h(
    "div",
    "fit work",
    said("p", "place", [board.place, lift.title].filter(Boolean).join(", ")),
    h("h1", "", board.name),
    said("p", "head", lift.work),
    said("p", "terms", lift.short),
    cautionsOf(board),
  );
  const people = h(
    "ol",
    "fit people lifters",
    lift.lanes.map((lane) =>
      h(
        "li",
        "",
        h("b", "key", lane.key),
        h("span", "name", lane.name),
        h("span", "load", (lane.flagged ? "^ " : "") + (lane.amount || "?"), said("small", "", lane.unit)),
        said("span", "does", [lane.side || lane.words, lane.which, lane.then].filter(Boolean).join("; ")),
      ),
    ),
  );
  const element = h("section", "board", work, people);
  return { element, size: () => sizeTwo(element, work, people) };
}

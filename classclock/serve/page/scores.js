// Tables of scores: at the settle, and at the end.

import { h, said } from "/elements.js";
import { fit, largest } from "/fit.js";

const ACROSS = [1, 2, 3];
const TURNS = 8000; // ms for one piece, where there are several; a key stops it

export function scoresScreen(page) {
  const head = h(
    "header",
    "",
    h("h1", "", page.title),
    said("p", "told", [page.state, page.words].filter(Boolean).join("; ")),
    said("p", "question", page.question),
  );
  return tabled("settle", head, page.rows, page.title);
}

const turning = { at: 0, stopped: false, coach: null };

export function summaryScreen(summary, again) {
  const pieces = summary.pieces.length ? summary.pieces : [{ name: summary.title, words: "", rows: [] }];
  turnAsTheCoach(summary.at);
  turn(pieces.length, again);
  const at = turning.at % pieces.length;
  const piece = pieces[at];
  const many = pieces.length > 1 ? `${at + 1} of ${pieces.length}` : "";
  const head = h(
    "header",
    "",
    h("h1", "", piece.name),
    h("p", "well", "Well done"),
    said("p", "told", [piece.words, many, ...summary.asked].filter(Boolean).join("; ")),
  );
  return tabled("summary", head, piece.rows, piece.name);
}

// Where the coach's keys have turned to, once for each turn: keys here may turn it on from there.
function turnAsTheCoach(at) {
  if (at === turning.coach) return;
  turning.coach = at;
  turning.at = at ?? 0;
  turning.stopped = at !== null;
}

let timer = 0;

function turn(count, again) {
  clearTimeout(timer);
  if (count < 2 || turning.stopped) return;
  timer = setTimeout(() => {
    turning.at += 1;
    again();
  }, TURNS);
}

// Left and right turn the page, space stops it: what moves by itself must let itself be stopped.
addEventListener("keydown", (event) => {
  if (document.body.dataset.screen !== "summary" || event.target instanceof HTMLButtonElement) return;
  const by = { ArrowRight: 1, ArrowLeft: -1, " ": 0 }[event.key];
  if (by === undefined) return;
  turning.at = Math.max(0, turning.at + by);
  turning.stopped = true;
  dispatchEvent(new Event("resize"));
});

function tabled(kind, head, rows, name) {
  const box = h("div", "tables fit");
  const element = h("section", kind, head, box);
  fill(box, rows, 1, name);
  const size = () => {
    const ways = ACROSS.filter((across) => across <= Math.max(1, rows.length));
    largest(ways, (across) => {
      fill(box, rows, across, name);
      return fit(box, innerHeight / 9);
    });
  };
  return { element, size };
}

function fill(box, rows, across, name) {
  const each = Math.ceil(rows.length / across) || 1;
  box.style.setProperty("--across", across);
  const parts = [];
  for (let from = 0; from < rows.length; from += each) parts.push(rows.slice(from, from + each));
  box.replaceChildren(...parts.map((part) => tableOf(part, name)));
}

function tableOf(rows, name) {
  const head = ["Key", "Rank", "Name", "Score", "Beside it"].map((words) => {
    const cell = h("th", "", words);
    cell.scope = "col";
    return cell;
  });
  return h(
    "table",
    "",
    h("caption", "unseen", `Scores, ${name}`),
    h("thead", "unseen", h("tr", "", head)),
    h("tbody", "", rows.map(rowOf)),
  );
}

function rowOf(row) {
  const cheer = row.best_hue === "ahead" && row.best ? `▲ ${row.best}` : row.best;
  const more = [row.asked, ...row.notes].filter(Boolean).join("; ");
  return h(
    "tr",
    row.selected ? "selected" : "",
    h("td", "key", row.key.toUpperCase()),
    h("td", "rank", row.rank),
    h("td", "name", row.name),
    h("td", "score", row.score, row.last ? h("small", "", ` (${row.last})`) : null),
    h("td", "beside", said("span", `cheer ${row.best_hue}`, cheer), said("span", "more", more)),
  );
}

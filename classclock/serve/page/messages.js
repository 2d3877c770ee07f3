// What is said in letters as large as there is room for.

import { h, said } from "/elements.js";
import { fit } from "/fit.js";

export function saidScreen(words, more = "") {
  const lines = Array.isArray(more) ? more : [more];
  const box = h("div", "fit", h("h1", "", words), lines.map((line) => said("p", "told", line)));
  return { element: h("section", "said", box), size: () => fit(box, innerHeight / 4) };
}

export function cardScreen(card) {
  const box = h(
    "div",
    "fit",
    h("h1", "", card.call),
    h("p", "door", card.door),
    h("ul", "", card.places.map((words) => h("li", "", words))),
    h("p", "obey", card.obey.join(" ")),
  );
  return { element: h("section", "card", box), size: () => fit(box, innerHeight / 5) };
}

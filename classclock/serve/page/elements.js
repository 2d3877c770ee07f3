// Making elements. Whatever somebody wrote goes in as text, never as markup.

// `h("li", "lane first", child, "text", …)`; what is empty is left out.
export function h(tag, kind, ...children) {
  const made = document.createElement(tag);
  if (kind) made.className = kind;
  for (const child of children.flat()) {
    if (child !== null && child !== undefined && child !== "" && child !== false) {
      made.append(child);
    }
  }
  return made;
}

// An element with words, or nothing where there are none.
export function said(tag, kind, words) {
  return words ? h(tag, kind, words) : null;
}

// A number stays with its unit where a line breaks.
export function tied(words) {
  return words.replace(/(\d) (?=(kg|lb|m|s|cal)\b|%)/g, "$1\u00a0").replace(/ (?=\/)/g, "\u00a0");
}

// The same with a style's custom properties.
export function placed(made, properties) {
  for (const [name, value] of Object.entries(properties)) made.style.setProperty(name, value);
  return made;
}

// Short words for elements of the page.

export const byId = id => document.getElementById(id);

/** Makes an element with attributes and children; a child is an element or a text. */
export function element(tag, attributes = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value !== null && value !== undefined && value !== false) made.setAttribute(name, value === true ? '' : value);
  }
  made.append(...children);
  return made;
}

/** Writes a text where it differs: an unchanged one is not read out again. */
export function setText(target, text) {
  if (target.textContent !== text) target.textContent = text;
}

/** Rows of a list of texts, where they differ. */
export function setItems(list, texts) {
  const same = list.children.length === texts.length && texts.every((text, i) => list.children[i].textContent === text);
  if (!same) list.replaceChildren(...texts.map(text => element('li', {}, text)));
  list.hidden = texts.length === 0;
}

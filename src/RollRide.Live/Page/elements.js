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

/** Writes a text where it differs: an unchanged one is neither read out again nor laid out again. */
export function setText(target, text) {
  if (target.textContent === text) return;
  if (target.childNodes.length === 1 && target.firstChild.nodeType === Node.TEXT_NODE && text !== '') target.firstChild.data = text;
  else target.textContent = text;
}

/** Shows or hides an element, where that is a change. */
export function setHidden(target, isHidden) {
  if (target.hidden !== isHidden) target.hidden = isHidden;
}

/** Takes a control out of use or gives it back, where that is a change. */
export function setDisabled(target, isDisabled) {
  if (target.disabled !== isDisabled) target.disabled = isDisabled;
}

/** Rows of a list of texts, where they differ. */
export function setItems(list, texts) {
  while (list.children.length > texts.length) list.lastElementChild.remove();
  texts.forEach((text, i) => setText(list.children[i] ?? list.appendChild(element('li')), text));
  setHidden(list, texts.length === 0);
}

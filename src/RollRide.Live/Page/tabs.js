// The layouts: which one is changed, and which are shown, at most four.

import { byId, element } from './elements.js';
import { glyph } from './glyph.js';

export const mostShown = 4;

export class Tabs {
  #app;
  #host = byId('tabs');
  #shape = '';

  constructor(app) { this.#app = app; }

  draw() {
    const layouts = this.#app.layouts();
    const shape = JSON.stringify(layouts.map(({ name, style, isSelected, isShown, isKept }) => [name, style, isSelected, isShown, isKept]));
    if (shape === this.#shape) return;
    this.#shape = shape;
    const focused = document.activeElement?.id;
    const isFull = layouts.filter(layout => layout.isShown).length >= mostShown;
    this.#host.replaceChildren(...layouts.map(layout => this.#tab(layout, isFull)));
    if (focused) byId(focused)?.focus();
  }

  #tab({ name, style, index, isSelected, isShown, isKept }, isFull) {
    const select = element('input', { type: 'radio', name: 'layout', id: `layout-${index}`, value: name });
    select.checked = isSelected;
    select.addEventListener('change', () => this.#app.select(name));
    const show = element('input', { type: 'checkbox', id: `shown-${index}`, disabled: isSelected || (isFull && !isShown), 'aria-label': `Show ${name}` });
    show.checked = isShown;
    show.addEventListener('change', () => this.#app.show(name, show.checked));
    const tab = element('div', { class: `tab${isSelected ? ' selected' : ''}${isShown ? '' : ' unshown'}` },
      element('label', {}, select, glyph(style), element('span', {}, name)),
      element('label', { class: 'show' }, show, 'show'));
    if (isKept) {
      const remove = element('button', { type: 'button', 'aria-label': `Remove ${name}` }, '×');
      remove.addEventListener('click', () => this.#app.removeKept(index));
      tab.append(remove);
    }
    return tab;
  }
}

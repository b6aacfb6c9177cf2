// The load state that the figures are for.

import { byId, element, setHidden } from './elements.js';

export class Loads {
  #app;
  #select = byId('load');
  #shape = null;

  constructor(app) {
    this.#app = app;
    this.#select.addEventListener('change', () => app.setLoad(this.#select.value || null));
  }

  draw() {
    const loads = this.#app.start.loads ?? [];
    setHidden(byId('loads'), loads.length < 2);
    const shape = loads.join('\n');
    if (shape === this.#shape) return;
    this.#shape = shape;
    this.#select.replaceChildren(...loads.map(load => element('option', { value: load }, load)));
  }
}

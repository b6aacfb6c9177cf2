// Sliders for a layout that is given by its motion ratios instead of mounts.

import { byId, element, setHidden, setText } from './elements.js';
import { dampersOf } from './mounts.js';
import { withEdits } from './session.js';

const usualMost = 1.5;
const most = 3;
const step = 0.005;

export class RatioSliders {
  #app;
  #host = byId('ratioSliders');
  #sliders = [];
  #shape = '';
  #gesture = Symbol();

  constructor(app) {
    this.#app = app;
    for (const end of ['change', 'pointerdown', 'focusin']) this.#host.addEventListener(end, () => { this.#gesture = Symbol(); });
  }

  draw() {
    const layout = this.#app.selectedLayout();
    const { scene } = this.#app;
    const dampers = layout ? dampersOf(layout.written, layout.index, layout.answer, scene).filter(damper => damper.kind === 'motionRatios') : [];
    setHidden(this.#host, dampers.length === 0);
    // With independent wheels a damper sees the same travel in heave and in roll.
    const modes = scene?.hasAxle ? [['heave'], ['roll']] : [['heave', 'roll']];
    const wanted = dampers.flatMap(damper => modes.map(keys => ({ damper, keys })));
    const shape = JSON.stringify(wanted.map(({ damper, keys }) => [damper.base, keys]));
    if (shape !== this.#shape) this.#build(wanted);
    this.#shape = shape;
    this.#sliders.forEach(({ slider, output }, i) => {
      const value = wanted[i].damper.placement.motionRatios[wanted[i].keys[0]];
      slider.max = value > usualMost ? most : usualMost;
      if (Number(slider.value) !== value) slider.value = value;
      setText(output, String(value));
    });
  }

  #build(wanted) {
    this.#sliders = wanted.map(({ damper, keys }) => {
      const id = `ratio-${damper.base}-${keys[0]}`;
      const slider = element('input', { id, type: 'range', min: 0, max: usualMost, step });
      slider.addEventListener('input', event => this.#app.change(
        state => withEdits(state, keys.map(key => ({ path: `${damper.base}.motionRatios.${key}`, value: Number(slider.value) }))),
        { gesture: this.#gesture, since: event.timeStamp }));
      return { label: element('label', { for: id }, `Motion ratio, ${keys.join(' and ')}${damper.side}`), slider, output: element('output', { for: id }) };
    });
    this.#host.replaceChildren(...this.#sliders.flatMap(({ label, slider, output }) => [label, slider, output]));
  }
}

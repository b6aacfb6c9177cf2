// What is on the screen: the panels, drawn at most once a frame, and the buttons above them.

import * as changes from './changes.js';
import { Curve } from './curve.js';
import { Dialogs } from './dialogs.js';
import { Drawing } from './drawing.js';
import { byId, setDisabled, setText } from './elements.js';
import { Fields } from './fields.js';
import { Loads } from './loads.js';
import { Ratios } from './ratios.js';
import { RatioSliders } from './sliders.js';
import { Statements } from './statements.js';
import { Table } from './table.js';
import { Tabs } from './tabs.js';
import { accelerationPlot, rollPlot } from './times.js';
import { WindowPlot } from './window.js';

export class Screen {
  #app;
  #frame = 0;
  #inputs = new Map();
  #panels;
  #statements;

  constructor(app) {
    this.#app = app;
    this.#statements = new Statements(app);
    this.#panels = [...[Tabs, Loads, Drawing, RatioSliders, Curve, Ratios, WindowPlot, Table, Fields].map(Panel => new Panel(app)), rollPlot(app), accelerationPlot(app), this.#statements];
    new Dialogs(app);
    this.#bindTools();
  }

  redraw() { this.#frame ||= requestAnimationFrame(() => this.#draw()); }

  /** Draws at once what waits for the next frame. */
  drawNow() {
    if (!this.#frame) return;
    cancelAnimationFrame(this.#frame);
    this.#draw();
  }

  #draw() {
    const app = this.#app;
    this.#frame = 0;
    // Without a file that can be read there is nothing to show but what is wrong with it.
    for (const panel of app.document ? this.#panels : [this.#statements]) this.#drawPanel(panel);
    if (app.title) {
      setText(document.querySelector('title'), `${app.title.name} – RollRide`);
      setText(byId('name'), app.title.name);
      setText(byId('vehicle'), app.title.vehicle);
    }
    setText(byId('said'), app.said);
    setDisabled(byId('undo'), !app.session.canUndo);
    setDisabled(byId('redo'), !app.session.canRedo);
    setDisabled(byId('back'), !app.session.isChanged);
    for (const id of ['keep', 'save', 'picture', 'print', 'search']) setDisabled(byId(id), !app.document);
    if (app.drawnSince !== null) app.measure.drawn(app.drawnSince);
    app.drawnSince = null;
  }

  // A panel is drawn anew where something has changed that it shows; one without inputs always.
  #drawPanel(panel) {
    const [before, now] = [this.#inputs.get(panel), panel.inputs?.()];
    if (before && now && before.length === now.length && before.every((input, i) => input === now[i])) return;
    this.#inputs.set(panel, now);
    panel.draw();
  }

  #bindTools() {
    const app = this.#app;
    for (const [id, act] of [['undo', () => app.undo()], ['redo', () => app.redo()], ['back', () => app.back()], ['print', () => print()]]) byId(id).addEventListener('click', act);
    addEventListener('beforeprint', () => changes.list(app));
    addEventListener('keydown', event => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || document.querySelector('dialog[open]') || event.target === byId('search')) return;
      const key = event.key.toLowerCase();
      if (key !== 'z' && key !== 'y') return;
      event.preventDefault();
      if (key === 'y' || event.shiftKey) app.redo();
      else app.undo();
    });
  }
}

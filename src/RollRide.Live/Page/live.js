// The page: its state, what it asks the server, and when it is drawn anew.

import * as changes from './changes.js';
import { Curve } from './curve.js';
import { Dialogs } from './dialogs.js';
import { Drawing } from './drawing.js';
import { byId, setText } from './elements.js';
import { Fields } from './fields.js';
import { freeFileName, keep, shifted, withoutKept } from './kept.js';
import { Loads } from './loads.js';
import { Measure } from './measure.js';
import { edited, isWithin, member, steps } from './paths.js';
import { Ratios } from './ratios.js';
import { RatioSliders } from './sliders.js';
import * as server from './server.js';
import { asInTheFile, Session, withoutIdle, withRenamedFile } from './session.js';
import { Statements } from './statements.js';
import { Table } from './table.js';
import { mostShown, Tabs } from './tabs.js';
import { accelerationPlot, rollPlot } from './times.js';
import { WindowPlot } from './window.js';

const styles = 8;
const verdictRest_ms = 150; // the verdict costs most: it waits for the hand to rest
const verdictLongest_ms = 700; // but comes now and then during a long drag

class App {
  session = new Session();
  start = null;
  document = null;
  answers = new Map();
  given = new Map();
  givenDampers = null;
  dampers = null;
  scene = null;
  window = null;
  verdict = null;
  faults = [];
  warnings = [];
  load = null;
  isLost = false;
  measure = new Measure();

  #selected = null;
  #shown = new Set();
  #version = 0;
  #wanted = new Map(); // layouts whose answer is older than the state, with the version of the state that they need
  #since = null; // when the hand made the newest change that was not asked for yet
  #sentSince = null; // the same of the request under way
  #drawnSince = null; // and of the answer that the next frame draws
  #frame = 0;
  #verdictTimer = 0;
  #verdictDue = 0;
  #takenFiles = new Set();
  #drawn = new Map();
  #panels;
  #statements;

  constructor() {
    const lost = error => this.#lost(error);
    this.requests = {
      answer: new server.Latest('answer', (answer, request) => this.#answered(answer, request), lost),
      given: new server.Latest('answer', answer => this.#gave(answer), lost),
      window: new server.Latest('window', answer => this.#received('window', answer), lost),
      verdict: new server.Latest('verdict', (answer, request) => {
        this.#received('verdict', answer);
        if (request.id !== this.#version) this.#askVerdict();
      }, lost),
    };
    this.#statements = new Statements(this);
    this.#panels = [...[Tabs, Loads, Drawing, RatioSliders, Curve, Ratios, WindowPlot, Table, Fields].map(Panel => new Panel(this)), rollPlot(this), accelerationPlot(this), this.#statements];
    new Dialogs(this);
    this.#bindTools();
  }

  // --- what the panels read ---

  layouts() {
    const inFile = this.start?.document.layouts.length ?? 0;
    return (this.document?.layouts ?? []).map((written, index) => {
      const answer = this.answers.get(written.name);
      return { name: written.name, index, written, answer, style: (answer?.style ?? index) % styles, isSelected: written.name === this.#selected, isShown: this.#shown.has(written.name), isKept: index >= inFile };
    });
  }

  shownLayouts() { return this.layouts().filter(layout => layout.isShown); }
  selectedLayout() { return this.layouts().find(layout => layout.isSelected); }
  /** All that figures of answers depend on, beside the answers of other kinds. */
  answerInputs() {
    const given = this.isSelectedChanged() ? this.givenAnswer() : null;
    return [given, ...this.shownLayouts().flatMap(layout => [layout.name, layout.isSelected, layout.answer])];
  }

  givenAnswer() { return this.given.get(this.#selected); }

  /** Whether anything that touches the selected layout differs from the file. */
  isSelectedChanged() {
    const own = this.selectedLayout();
    return this.session.state.edits.some(({ path }) => !path.startsWith('layouts[') || isWithin(path, `layouts[${own?.index}]`));
  }

  isDamperChanged(name) { return this.session.state.edits.some(({ path }) => isWithin(path, member('dampers', name))); }
  get isBehind() { return this.#wanted.size > 0; }

  // --- what the panels do ---

  /**
   * Takes a change of the state.
   * @param {(state: State) => State} next
   * @param {{gesture?: symbol, since?: number}} options changes of one gesture are undone together; since when the hand moved
   */
  change(next, { gesture, since } = {}) {
    const before = this.session.state;
    this.session.change(withoutIdle(next(before), this.start.document), gesture);
    this.measure.moved();
    this.#changed(before, since);
  }

  undo() { this.#travel(() => this.session.undo()); }
  redo() { this.#travel(() => this.session.redo()); }
  back() { if (this.session.isChanged) this.change(() => asInTheFile); }

  select(name) {
    this.#selected = name;
    this.show(name, true);
  }

  show(name, isShown) {
    if (!isShown) this.#shown.delete(name);
    else if (!this.#shown.has(name)) {
      if (this.#shown.size >= mostShown) this.#shown.delete([...this.#shown].findLast(other => other !== this.#selected));
      this.#shown.add(name);
      this.#want([name]);
      this.#askGiven();
    }
    this.redraw();
  }

  setLoad(load) {
    this.load = load;
    this.#want(this.#shown);
    this.#askGiven();
    this.redraw();
  }

  keep(name) {
    const { index } = this.selectedLayout();
    this.change(state => keep(state, this.start.document, index, name));
    this.select(name);
  }

  removeKept(index) { this.change(state => withoutKept(state, this.start.document, index)); }

  /** Says something once, on the page and to a screen reader. */
  say(text) {
    setText(byId('said'), text);
    setTimeout(() => { if (byId('said').textContent === text) setText(byId('said'), ''); }, 8000);
  }

  redraw() {
    this.#frame ||= requestAnimationFrame(() => {
      this.#frame = 0;
      for (const panel of this.document ? this.#panels : [this.#statements]) this.#draw(panel);
      byId('undo').disabled = !this.session.canUndo;
      byId('redo').disabled = !this.session.canRedo;
      byId('back').disabled = !this.session.isChanged;
      for (const id of ['keep', 'save', 'picture', 'print', 'search']) byId(id).disabled = !this.document;
      if (this.#drawnSince !== null) this.measure.drawn(this.#drawnSince);
      this.#drawnSince = null;
    });
  }

  // A panel is drawn anew where something has changed that it shows; one without inputs always.
  #draw(panel) {
    const inputs = panel.inputs?.();
    if (inputs && this.#drawn.get(panel)?.every((input, i) => input === inputs[i]) && this.#drawn.get(panel).length === inputs.length) return;
    this.#drawn.set(panel, inputs);
    panel.draw();
  }

  // --- the file ---

  async open() {
    try {
      this.#opened(await server.start());
    } catch (error) {
      this.#lost(error);
      setTimeout(() => this.open(), 1000);
    }
  }

  #opened(start) {
    this.isLost = false;
    this.faults = start.faults;
    this.warnings = start.warnings;
    const { name, vehicle, file } = start.faults.length > 0 && this.start ? this.start : start;
    document.title = `${name ?? file} – RollRide`;
    setText(byId('name'), name ?? file);
    setText(byId('vehicle'), [vehicle, file].filter(Boolean).join(' · '));
    // While the file is at fault the page keeps the last good one, if it had one.
    if (start.faults.length === 0) this.#read(start);
    if (this.document && (start.faults.length === 0 || this.session.isChanged)) this.#want(this.#shown);
    this.redraw();
  }

  #read(start) {
    // Layouts kept on the page stand behind those of the file.
    const [before, now] = [this.start?.document.layouts.length ?? 0, start.document.layouts.length];
    if (this.start && now !== before) this.session.rewrite(state => shifted(state, before, now - before));
    this.start = start;
    if (!start.loads.includes(this.load)) this.load = start.loads[0] ?? null;
    this.#version++;
    this.#readDocument();
    if (!this.#selected) this.#shown = new Set(this.layouts().slice(0, mostShown).map(layout => layout.name));
    this.#settleSelection();
    this.given.clear();
    this.#askGiven();
  }

  // --- asking and answering ---

  #changed(before, since) {
    this.#version++;
    if (since !== undefined) this.#since = since;
    this.#readDocument();
    this.#settleSelection();
    this.#want(this.#touched(before, this.session.state));
    this.redraw();
  }

  // Edits within one layout leave the answers of the others as they are.
  #touched(before, after) {
    const [old, young] = [new Set(before.edits), new Set(after.edits)];
    const paths = [...before.edits.filter(edit => !young.has(edit)), ...after.edits.filter(edit => !old.has(edit))].map(edit => steps(edit.path));
    const isAll = before.files !== after.files || paths.some(([list, , key]) => list !== 'layouts' || key === 'name');
    const indices = new Set(paths.map(([, index]) => index));
    return this.shownLayouts().filter(layout => isAll || indices.has(layout.index)).map(layout => layout.name);
  }

  #want(names) {
    for (const name of names) this.#wanted.set(name, this.#version);
    this.#ask();
    this.#askVerdict();
  }

  #ask() {
    this.requests.answer.send(() => {
      [this.#sentSince, this.#since] = [this.#since, null];
      return { id: this.#version, state: this.session.state, load: this.load, layouts: [...this.#wanted.keys()] };
    });
  }

  // Without changes the answer itself is that of the file.
  #askGiven() {
    if (!this.session.isChanged) return;
    this.requests.given.send(() => ({ id: this.#version, state: asInTheFile, load: this.load, layouts: this.#namesInFile() }));
  }

  #namesInFile() {
    const inFile = new Set(this.start.document.layouts.map(layout => layout.name));
    return [...this.#shown].filter(name => inFile.has(name));
  }

  #askVerdict() {
    clearTimeout(this.#verdictTimer);
    this.#verdictDue ||= performance.now() + verdictLongest_ms;
    this.#verdictTimer = setTimeout(() => {
      // The one under way asks for the next when it is back.
      if (!this.requests.verdict.isIdle) return;
      this.#verdictDue = 0;
      this.requests.verdict.send(() => ({ id: this.#version, state: this.session.state }));
    }, Math.max(0, Math.min(verdictRest_ms, this.#verdictDue - performance.now())));
  }

  #answered(answer, request) {
    this.isLost = false;
    if (this.#renameTakenFiles(answer.faults, request.state)) return;
    this.faults = answer.faults ?? [];
    this.warnings = answer.warnings ?? [];
    for (const layout of answer.layouts) this.answers.set(layout.name, layout);
    if (request.state.edits.length === 0) this.#gave(answer);
    for (const name of request.layouts) if (this.#wanted.get(name) <= request.id) this.#wanted.delete(name);
    this.scene = answer.scene ?? this.scene;
    this.dampers = answer.dampers ?? this.dampers;
    this.#drawnSince = this.#sentSince;
    if (this.faults.length === 0 && this.document.targets) this.requests.window.send(() => ({ id: this.#version, state: this.session.state, load: this.load }));
    this.redraw();
  }

  // The file of a changed curve may have a name that another file in the folder has: it gets the next one.
  #renameTakenFiles(faults, state) {
    const taken = state.files.map(file => file.name).filter(name => faults.some(fault => fault.file === name && !fault.line && !fault.path));
    for (const name of taken) {
      this.#takenFiles.add(name);
      this.session.rewrite(state => withRenamedFile(state, name, freeFileName(name, [...this.#takenFiles])));
    }
    if (taken.length > 0) this.#changed(state);
    return taken.length > 0;
  }

  #gave(answer) {
    for (const layout of answer.layouts) this.given.set(layout.name, layout);
    this.givenDampers = answer.dampers ?? this.givenDampers;
    this.redraw();
  }

  #received(kind, answer) {
    if ((answer.faults ?? []).length === 0) this[kind] = answer;
    this.redraw();
  }

  #lost(error) {
    if (error instanceof server.Refusal) this.say(`The server refused a request: ${error.message}`);
    else this.isLost = true;
    this.redraw();
  }

  #travel(step) {
    const before = this.session.state;
    step();
    if (this.session.state !== before) this.#changed(before);
  }

  #readDocument() {
    try {
      this.document = edited(this.start.document, this.session.state.edits);
    } catch {
      // An edit whose place the file has lost: the server names it among the faults.
    }
  }

  #settleSelection() {
    const names = this.layouts().map(layout => layout.name);
    for (const name of this.#shown) if (!names.includes(name)) this.#shown.delete(name);
    for (const name of this.#wanted.keys()) if (!names.includes(name)) this.#wanted.delete(name);
    if (names.includes(this.#selected)) return;
    this.#selected = [...this.#shown][0] ?? names[0] ?? null;
    if (this.#selected) this.#shown.add(this.#selected);
  }

  #bindTools() {
    for (const [id, act] of [['undo', () => this.undo()], ['redo', () => this.redo()], ['back', () => this.back()], ['print', () => print()]]) byId(id).addEventListener('click', act);
    addEventListener('beforeprint', () => changes.list(this));
    addEventListener('keydown', event => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || document.querySelector('dialog[open]') || event.target === byId('search')) return;
      const key = event.key.toLowerCase();
      if (key !== 'z' && key !== 'y') return;
      event.preventDefault();
      if (key === 'y' || event.shiftKey) this.redo();
      else this.undo();
    });
  }
}

const app = new App();
const events = new EventSource('events');
let wasOpen = false;
events.addEventListener('changed', () => app.open());
events.addEventListener('open', () => {
  // After a gap the file may have changed meanwhile.
  if (wasOpen) app.open();
  app.isLost = false;
  wasOpen = true;
});
events.addEventListener('error', () => {
  app.isLost = true;
  app.redraw();
});
app.open();

window.rollride = { app, get counts() { return { ...app.measure.counts, sent: app.requests.answer.sent, dropped: app.requests.answer.dropped, windows: app.requests.window.sent, verdicts: app.requests.verdict.sent }; }, get times() { return app.measure.times; } };

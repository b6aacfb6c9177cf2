// The page's state: what the file says, what the engineer changed, and what the server answered. It asks whatever an answer is older than.

import { freeFileName, keep, lostLayouts, rebased, renamed, withoutKept } from './kept.js';
import { Measure } from './measure.js';
import { edited, isWithin, member, steps } from './paths.js';
import { rehearse } from './rehearsal.js';
import * as server from './server.js';
import { asInTheFile, Session, withEdit, withoutIdle, withRenamedFile } from './session.js';
import { mostShown } from './tabs.js';

const styles = 8;
const windowPause_ms = 60; // the window may trail behind the hand, the figures may not
const bandsPause_ms = 150; // and so may where the axle end fits, which is the longest search of the page
const verdictRest_ms = 150; // the verdict costs most: it waits for the hand to rest
const verdictLongest_ms = 1500; // but comes now and then during a long drag
const said_ms = 8000;

// What says the same stays the same object: figures of it are not drawn again.
const sameIfEqual = (before, now) => !now || JSON.stringify(now) === JSON.stringify(before) ? before : now;

export class App {
  session = new Session();
  title = null;
  start = null;
  document = null;
  answers = new Map();
  given = new Map();
  givenDampers = null;
  dampers = null;
  scene = null;
  bands = null; // where the axle end fits
  window = null;
  verdict = null;
  faults = [];
  warnings = [];
  load = null;
  isLost = false;
  isSilent = false;
  said = '';
  drawnSince = null; // when the hand made the change that the newest answer answers
  measure = new Measure();
  redraw;
  drawNow;

  #selected = null;
  #shown = new Set();
  #version = 0;
  #readings = 0; // of the file
  #sentReadings = 0;
  #wanted = new Map(); // layouts whose answer is older than the state, with the version of the state that they need
  #since = null; // when the hand made the newest change that was not asked for yet
  #sentSince = null; // the same of the request under way
  #sentDocument = null; // what it asks about
  #verdictTimer = 0;
  #verdictDue = 0;
  #quiet = 0;
  #bandsKey = '';
  #bandsStart = null;
  #takenFiles = new Set();
  #hasRehearsed = false;
  #isInHand = false; // whether a point was moved that the hand still holds

  /**
   * @param {() => void} redraw draws the page in the next frame
   * @param {() => void} drawNow draws at once what waits for it
   */
  constructor(redraw, drawNow) {
    [this.redraw, this.drawNow] = [redraw, drawNow];
    const lost = error => this.#failed(error);
    this.requests = {
      answer: new server.Latest('answer', (answer, request) => this.#answered(answer, request), lost),
      given: new server.Latest('answer', answer => this.#gave(answer), lost),
      window: new server.Latest('window', answer => this.#received('window', answer), lost, windowPause_ms),
      bands: new server.Latest('answer', answer => this.#received('bands', answer.scene?.bands ?? null), lost, bandsPause_ms),
      verdict: new server.Latest('verdict', (answer, request) => {
        this.#received('verdict', answer);
        if (request.id !== this.#version) this.#askVerdict();
      }, lost),
    };
  }

  // --- what the panels read ---

  layouts() {
    const inFile = this.start?.document.layouts.length ?? 0;
    return (this.document?.layouts ?? []).map((written, index) => {
      const answer = this.answers.get(written.name);
      return { name: written.name, index, written, drawn: answer?.written ?? written, answer, style: (answer?.style ?? index) % styles, isSelected: written.name === this.#selected, isShown: this.#shown.has(written.name), isKept: index >= inFile };
    });
  }

  shownLayouts() { return this.layouts().filter(layout => layout.isShown); }
  selectedLayout() { return this.layouts().find(layout => layout.isSelected); }
  givenAnswer() { return this.given.get(this.#selected); }

  /** All that figures of answers depend on, beside the answers of other kinds. */
  answerInputs() {
    const given = this.isSelectedChanged() ? this.givenAnswer() : null;
    return [given, ...this.shownLayouts().flatMap(layout => [layout.name, layout.isSelected, layout.answer])];
  }

  /** Whether anything that touches the selected layout differs from the file; in the hand always, so that nothing comes and goes where a drag passes the file's own place. */
  isSelectedChanged() {
    const own = this.selectedLayout();
    return this.#isInHand || this.session.state.edits.some(({ path }) => !path.startsWith('layouts[') || isWithin(path, `layouts[${own?.index}]`));
  }

  isDamperChanged(name) { return this.session.state.edits.some(({ path }) => isWithin(path, member('dampers', name))); }
  /** Whether the decision is one of an earlier state. */
  get isVerdictOld() { return this.verdict !== null && this.verdict.id !== this.#version; }
  get isBehind() { return this.#wanted.size > 0; }

  // --- what the panels do ---

  /**
   * Takes a change of the state.
   * @param {(state: State) => State} next
   * @param {{gesture?: symbol, since?: number, isInHand?: boolean}} options changes of one gesture are undone together; since when the hand moved; whether it holds what it moves
   */
  change(next, { gesture, since, isInHand = false } = {}) {
    this.#isInHand = isInHand;
    const before = this.session.state;
    this.session.change(withoutIdle(next(before), this.start.document), gesture);
    this.measure.moved();
    this.#changed(before, since);
  }

  /** The hand has let go. */
  letGo() {
    this.#isInHand = false;
    this.redraw();
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
    this.#version++;
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

  /** Says something for a while, on the page and to a screen reader. */
  say(text) {
    this.said = text;
    clearTimeout(this.#quiet);
    if (text) this.#quiet = setTimeout(() => this.say(''), said_ms);
    this.redraw();
  }

  // --- the file and the server ---

  /** The server is there. */
  found() { this.#setLost(false); }

  /** There is no server. */
  lost() { this.#setLost(true); }

  /** The server says nothing any more, although the line to it stands. */
  silent() { this.#setLost(this.isLost, true); }

  async open() {
    try {
      this.#opened(await server.start());
    } catch (error) {
      this.#failed(error);
      setTimeout(() => this.open(), 1000);
    }
  }

  #opened(start) {
    this.#setLost(false);
    this.#readings++;
    this.faults = start.faults;
    this.warnings = start.warnings;
    const { name, vehicle, file } = start.faults.length > 0 && this.start ? this.start : start;
    this.title = { name: name ?? file, vehicle: [vehicle, file].filter(Boolean).join(' · ') };
    // While the file is at fault the page keeps the last good one, if it had one.
    if (start.faults.length === 0) this.#read(start);
    if (this.document && (start.faults.length === 0 || this.session.isChanged)) this.#want(this.#shown);
    else this.#wanted.clear(); // a file at fault has no figures to wait for
    this.redraw();
  }

  #read(start) {
    // What the file now says itself, as after it was saved from here, is no change any more.
    if (this.start) this.#follow(this.start.document.layouts, start.document);
    this.start = start;
    if (!start.loads.includes(this.load)) this.load = start.loads[0] ?? null;
    this.#version++;
    this.#readDocument();
    if (!this.#selected) this.#shown = new Set(this.layouts().slice(0, mostShown).map(layout => layout.name));
    this.#settleSelection();
    this.given.clear();
    this.#askGiven();
  }

  // What was changed, selected and shown goes with the layouts to where and how the file now has them.
  #follow(written, inFile) {
    const before = renamed(written, inFile.layouts);
    const nameNow = name => before[written.findIndex(layout => layout.name === name)]?.name ?? name;
    [this.#selected, this.#shown] = [nameNow(this.#selected), new Set([...this.#shown].map(nameNow))];
    const gone = lostLayouts(this.session.state, before, inFile.layouts);
    if (gone.length > 0) this.say(`The file has no layout ${gone.map(name => `“${name}”`).join(', ')} any more: what was changed there is gone.`);
    this.session.rewrite(state => withoutIdle(rebased(state, before, inFile.layouts), inFile));
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

  #ask() { this.#askOf(() => this.session.state, () => [...this.#wanted.keys()]); }

  #askOf(state, layouts) {
    this.requests.answer.send(() => {
      [this.#sentSince, this.#since, this.#sentDocument, this.#sentReadings] = [this.#since, null, this.document, this.#readings];
      return { id: this.#version, state: state(), load: this.load, layouts: layouts(), parts: ['run', 'place', 'scene', 'dampers'] };
    });
  }

  get isAtRest() { return Object.values(this.requests).every(request => request.isIdle); }

  /** Asks and draws all that a drag does, of the state as it is; only the scenario has another name, or the server would know the answer. */
  rehearse(name) {
    this.#askOf(() => withEdit(asInTheFile, { path: 'name', value: name }), () => [this.#selected]);
    this.requests.verdict.send(() => ({ id: this.#version, state: this.session.state }));
  }

  // They depend on no layout: while one is dragged they stay.
  #askBands({ state, load }) {
    const key = JSON.stringify([load, state.edits.filter(edit => !edit.path.startsWith('layouts['))]);
    if (!this.document.packaging || (key === this.#bandsKey && this.#bandsStart === this.start)) return;
    [this.#bandsKey, this.#bandsStart] = [key, this.start];
    this.requests.bands.send(() => ({ id: this.#version, state: this.session.state, load: this.load, layouts: [], parts: ['scene', 'bands'] }));
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
    this.#setLost(false);
    if (this.#sentReadings !== this.#readings) return; // the file has been read again since: what still stands was asked anew, and faults stay told
    if (this.#renameTakenFiles(answer.faults, request.state)) return;
    this.faults = sameIfEqual(this.faults, answer.faults ?? []);
    this.warnings = sameIfEqual(this.warnings, answer.warnings ?? []);
    // With each answer goes the layout that it is about: while the hand is ahead, what is drawn and what is said of it still belong together.
    for (const layout of answer.layouts) this.answers.set(layout.name, { ...layout, written: this.#sentDocument.layouts.find(written => written.name === layout.name) });
    if (request.state.edits.length === 0) this.#gave(answer);
    for (const name of request.layouts) if (this.#wanted.get(name) <= request.id) this.#wanted.delete(name);
    this.scene = sameIfEqual(this.scene, answer.scene);
    this.dampers = sameIfEqual(this.dampers, answer.dampers);
    this.drawnSince = this.#sentSince;
    if (this.faults.length === 0) this.#askBands(request);
    if (this.faults.length === 0 && this.document.targets) this.requests.window.send(() => ({ id: this.#version, state: this.session.state, load: this.load }));
    this.redraw();
    if (this.#hasRehearsed) return;
    this.#hasRehearsed = true;
    rehearse(this);
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
    if ((answer?.faults ?? []).length === 0) this[kind] = answer;
    this.redraw();
  }

  #failed(error) {
    if (error instanceof server.Refusal) this.say(`The server refused a request: ${error.message}`);
    else this.#setLost(true);
  }

  #setLost(isLost, isSilent = false) {
    if (this.isLost === isLost && this.isSilent === isSilent) return;
    [this.isLost, this.isSilent] = [isLost, isSilent];
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
}

// What the page says in words: verdict, risks, whether the damper fits, the setting window, faults, and how fresh the figures are.

import { byId, element, setHidden, setItems, setText } from './elements.js';

const longDecision = 270, longestDecision = 570;
const slow_ms = 400;
const speakAfter_ms = 1200;

export class Statements {
  #app;
  #spoken;
  #slow;
  #shownFaults = null;

  constructor(app) { this.#app = app; }

  draw() {
    const { verdict, warnings } = this.#app;
    const selected = this.#app.selectedLayout();
    setText(byId('decision'), verdict?.decision ?? '');
    byId('decision').classList.toggle('waiting', this.#app.isVerdictOld);
    byId('decision').classList.toggle('long', byId('decision').textContent.length > longDecision);
    byId('decision').classList.toggle('longest', byId('decision').textContent.length > longestDecision);
    const risks = this.#risks();
    setText(byId('firstRisk'), risks.length === 0 ? '' : risks.length === 1 ? risks[0] : `${risks[0]} (and ${risks.length - 1} more, below the numbers)`);
    setHidden(byId('firstRisk'), risks.length === 0 || this.#app.faults.length > 0);
    const [isMissed, place] = placeOf(selected?.answer);
    setText(byId('place'), place);
    byId('place').classList.toggle('missed', isMissed);
    const [window, ...remedies] = windowOf(this.#app.window, selected?.name);
    setText(byId('windowNow'), window ?? '');
    setItems(byId('remedies'), remedies);
    setItems(byId('risks'), risks);
    setItems(byId('warnings'), warnings);
    this.#drawFaults();
    this.#drawFreshness();
    clearTimeout(this.#spoken);
    this.#spoken = setTimeout(() => this.#speak(isMissed ? place : ''), speakAfter_ms);
  }

  // Those of the shown layouts in this load are of the newest answer, the others of the last verdict.
  #risks() {
    const { verdict, load } = this.#app;
    const newest = this.#app.shownLayouts().filter(layout => layout.answer?.risks).map(({ name, answer }) => ({ head: `“${name}”${load ? `, ${load}` : ''}: `, risks: answer.risks }));
    const others = (verdict?.risks ?? []).filter(risk => !newest.some(({ head }) => risk.startsWith(head)));
    return [...newest.flatMap(({ head, risks }) => risks.map(risk => head + risk)), ...others];
  }

  #drawFaults() {
    const { faults } = this.#app;
    setItems(byId('faults'), faults.map(fault => inWords(fault)));
    this.#drawFaultyText();
    for (const [id, isHere] of [['drawingFault', path => /^layouts\[.*(placement|mounts)/.test(path) || path.startsWith('packaging')], ['curveFault', path => path.startsWith('dampers')]]) {
      const here = faults.filter(fault => fault.path && isHere(fault.path)).map(fault => fault.message);
      setText(byId(id), here.join(' '));
      setHidden(byId(id), here.length === 0);
    }
  }

  // Without a good state to show there is no field for a faulty value: its line of the file is shown instead.
  #drawFaultyText() {
    const { faults, document: scenario } = this.#app;
    const isNeeded = !scenario && faults.length > 0;
    document.body.classList.toggle('unread', isNeeded);
    setHidden(byId('faultyText'), !isNeeded);
    if (!isNeeded || faults === this.#shownFaults) return;
    this.#shownFaults = faults;
    byId('faultyText').replaceChildren(
      element('h2', {}, 'The scenario cannot be read yet'),
      element('p', {}, 'Mend it in an editor and save it: this page follows.'),
      ...faults.filter(fault => fault.around).map(faultyLines));
  }

  #drawFreshness() {
    const { isLost, isSilent, faults, isBehind } = this.#app;
    clearTimeout(this.#slow);
    const isOld = isLost || isSilent || faults.length > 0;
    document.body.classList.toggle('old', isOld);
    if (isLost) this.#status('No answer from the server. Trying again; the figures show the last answer.');
    else if (isSilent) this.#status('The server is silent: stopped, or very busy. The figures show the last answer until it goes on.');
    else if (faults.length > 0) this.#status(this.#app.document ? 'The figures show the last state that could be computed.' : '');
    else if (!isBehind) this.#status('Up to date');
    else this.#slow = setTimeout(() => this.#status('Computing…', true), slow_ms);
  }

  #status(text, isWaiting = false) {
    setText(byId('status'), text);
    byId('place').classList.toggle('waiting', isWaiting);
  }

  // Politely, once things have come to rest.
  #speak(place) {
    const { faults, verdict } = this.#app;
    setText(byId('spoken'), faults.length > 0 ? '' : [place, verdict?.decision].filter(Boolean).join(' '));
  }
}

function inWords({ file, line, path, value, message }) {
  const place = [file, line && `line ${line}`].filter(Boolean).join(', ');
  return [place, path && (value ? `${path} = ${value}` : path), message].filter(Boolean).join(': ');
}

const faultyLines = ({ file, line, message, around }) => element('div', { class: 'excerpt' },
  element('h3', {}, `${file}, line ${line}`),
  ...around.flatMap(([number, text]) => [
    element('p', { class: number === line ? 'faulty' : null }, element('span', { class: 'number' }, String(number)), element('code', {}, text)),
    ...(number === line ? [element('p', { class: 'fault' }, message)] : []),
  ]));

function placeOf(answer) {
  if (!answer?.place) return [false, ''];
  const { isChecked, fits, inTheWay = [] } = answer.place;
  if (!isChecked) return [false, 'Clearances are not checked: the scenario has no packaging.'];
  return fits ? [false, 'The damper fits: every clearance is kept.'] : [true, `Does not fit: ${inTheWay.join(' ')}`];
}

// How the window stands for a layout, and what would open it first.
const windowOf = (study, name) => (study?.sentences ?? []).filter(sentence => sentence.startsWith(`“${name}”: `)).slice(0, 2).map(sentence => capital(sentence.slice(name.length + 4)));

const capital = text => text[0].toUpperCase() + text.slice(1);

// The page begins here: its state and its screen, and the server's word that a file has changed.

import { App } from './app.js';
import { hear } from './events.js';
import { Screen } from './screen.js';

const app = new App(() => screen.redraw(), () => screen.drawNow());
const screen = new Screen(app);

addEventListener('error', ({ message }) => app.say(`A fault of this page, not of your input (${message}). Load it anew, and please report it with the scenario.`));

const heard = { changed: () => app.open(), open: () => app.found(), beat: () => app.found(), error: () => app.lost(), silent: () => app.silent() };
if ('SharedWorker' in window) {
  const watch = new SharedWorker('page/watch.js', { type: 'module' }).port;
  watch.onmessage = ({ data }) => heard[data]();
  for (const [event, word] of [['pageshow', 'here'], ['pagehide', 'gone']]) addEventListener(event, () => watch.postMessage(word));
} else if ('locks' in navigator) {
  // One page at a time hears the server for all. When it closes, the next one does: what changed in between is read anew.
  const others = new BroadcastChannel('rollride');
  others.onmessage = ({ data }) => heard[data]();
  const tell = word => {
    others.postMessage(word);
    heard[word]();
  };
  navigator.locks.request('rollride', () => new Promise(() => hear(word => tell(word === 'open' && app.start ? 'changed' : word))));
} else {
  hear(word => heard[word]());
}
app.open();

/** For a benchmark: counts, and times from a move of the hand to the painted answer. */
window.rollride = {
  app,
  get counts() {
    const { answer, window, verdict } = app.requests;
    return { ...app.measure.counts, sent: answer.sent, dropped: answer.dropped, windows: window.sent, verdicts: verdict.sent };
  },
  get times() { return app.measure.times; },
};

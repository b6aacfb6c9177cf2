// The page begins here: its state and its screen, and the server's word that a file has changed.

import { App } from './app.js';
import { Screen } from './screen.js';

const app = new App(() => screen.redraw(), () => screen.drawNow());
const screen = new Screen(app);

addEventListener('error', ({ message }) => app.say(`A fault of this page, not of your input (${message}). Load it anew, and please report it with the scenario.`));

const heard = { changed: () => app.open(), open: () => app.found(), error: () => app.lost() };
if ('SharedWorker' in window) {
  const watch = new SharedWorker('page/watch.js').port;
  watch.onmessage = ({ data }) => heard[data]();
  for (const [event, word] of [['pageshow', 'here'], ['pagehide', 'gone']]) addEventListener(event, () => watch.postMessage(word));
} else {
  // A stream of its own: six such pages of one server are then the most that a browser can open.
  const events = new EventSource('events');
  for (const word in heard) events.addEventListener(word, heard[word]);
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

// A drag rehearsed while the page is looked at for the first time: browser and server compile what is called often, and that is done when the hand comes.

const rounds = 40; // the server's runtime compiles a method anew after thirty calls
const rest_ms = 20;

/**
 * Asks for the figures that are shown, and draws them, again and again, until the engineer changes something. Of several pages one after the other does.
 * @param {{session: {isChanged: boolean}, isAtRest: boolean, faults: object[], rehearse: (name: string) => void}} app
 */
export const rehearse = app => navigator.locks?.request('rehearsal', async () => {
  for (let round = 0; round < rounds;) {
    await new Promise(resolve => setTimeout(resolve, rest_ms));
    // After the rest, for the hand may have come in it: figures of the file would then stand for those of the change.
    if (app.session.isChanged || app.faults.length > 0) return;
    if (app.isAtRest) app.rehearse(`${round++}`);
  }
});

// Hears the server's events for all pages that are open on it: a stream holds a connection, and a browser has six to a server in all.

import { hear } from './events.js';

const pages = new Set();

hear(word => {
  for (const page of pages) page.postMessage(word);
});

addEventListener('connect', ({ ports: [page] }) => {
  page.onmessage = ({ data }) => data === 'here' ? pages.add(page) : pages.delete(page);
});

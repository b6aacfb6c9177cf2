// The line and marker by which a layout is known in every figure.

import { marker, node } from './svg.js';

export function glyph(style) {
  const drawn = node('svg', { class: 'glyph', width: 34, height: 12, 'aria-hidden': 'true' });
  node('path', { class: `line plain s${style}`, d: 'M0 6H34' }, drawn);
  node('path', { class: `mark s${style}`, d: marker(style, 17, 6, 4) }, drawn);
  return drawn;
}

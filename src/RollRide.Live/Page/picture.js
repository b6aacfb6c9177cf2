// A figure of the page as a picture file, made by the page itself: SVG, or PNG at twice its size.

import { byId } from './elements.js';
import { marker, node } from './svg.js';

const written = ['fill', 'fill-opacity', 'stroke', 'stroke-width', 'stroke-dasharray', 'stroke-linecap', 'stroke-linejoin', 'opacity', 'paint-order', 'font-size', 'font-weight', 'text-anchor'];
const legendRow = 20;
const pngScale = 2;

/** Saves the figure with this id, with the names of its layouts above it, under a file name of its own. */
export async function save(id, format, layouts, stem) {
  const svg = standalone(byId(id).querySelector('svg'), layouts);
  if (format === 'png') svg.prepend(await typeface());
  const text = new Blob([new XMLSerializer().serializeToString(svg)], { type: 'image/svg+xml' });
  download(format === 'svg' ? text : await raster(text, svg), `${stem}-${id}.${format}`);
}

// A picture is drawn apart from the page, and has no typeface but what it carries.
async function typeface() {
  const rules = await Promise.all([['400', 'Inter-Regular.otf'], ['700', 'Inter-Bold.otf']].map(async ([weight, file]) => {
    const font = await (await fetch(`page/${file}`)).blob();
    const address = await new Promise(resolve => {
      const reader = new FileReader();
      reader.onload = () => resolve(reader.result);
      reader.readAsDataURL(font);
    });
    return `@font-face{font-family:"RollRide Inter";font-weight:${weight};src:url(${address})}`;
  }));
  const style = node('style');
  style.textContent = rules.join('');
  return style;
}

/** A copy that needs no style sheet: every style that the page gives it stands in its attributes. */
function standalone(shown, layouts) {
  const copy = shown.cloneNode(true);
  const rings = copy.querySelectorAll('.handle:not(.point)');
  const originals = [shown, ...shown.querySelectorAll('*')];
  [copy, ...copy.querySelectorAll('*')].forEach((target, i) => {
    const style = getComputedStyle(originals[i]);
    if (style.display === 'none') target.setAttribute('display', 'none');
    for (const name of written) target.setAttribute(name, style.getPropertyValue(name));
    for (const name of ['class', 'tabindex', 'role', 'data-handle', ...target.getAttributeNames().filter(own => own.startsWith('aria-'))]) target.removeAttribute(name);
  });
  // The points of a curve belong to the picture; the rings by which a mount is held do not.
  for (const ring of rings) ring.remove();
  const names = legend(layouts, shown.clientWidth);
  const [width, height, above] = [shown.clientWidth, shown.clientHeight + names.height, names.height];
  for (const [name, value] of Object.entries({ width, height, viewBox: `0 ${-above} ${width} ${height}`, 'font-family': '"RollRide Inter", Inter, sans-serif' })) copy.setAttribute(name, value);
  const paper = node('rect', { x: 0, y: -above, width, height, fill: getComputedStyle(document.body).backgroundColor });
  names.group.setAttribute('transform', `translate(0 ${-above})`);
  copy.prepend(paper, names.group);
  return copy;
}

function legend(layouts, width) {
  const group = node('g', { 'font-size': 12, fill: getComputedStyle(document.body).color });
  let [x, y] = [10, 14];
  for (const { name, style } of layouts) {
    const length = 60 + 6.8 * name.length;
    if (x > 10 && x + length > width) [x, y] = [10, y + legendRow];
    const colours = getComputedStyle(document.querySelector(`.glyph .mark.s${style}`));
    const lines = getComputedStyle(document.querySelector(`.glyph .line.s${style}`));
    node('path', { d: `M${x} ${y}h34`, stroke: lines.stroke, 'stroke-width': lines.strokeWidth, 'stroke-dasharray': lines.strokeDasharray }, group);
    node('path', { d: marker(style, x + 17, y, 4), fill: colours.fill, stroke: colours.stroke, 'stroke-width': colours.strokeWidth }, group);
    node('text', { x: x + 40, y: y + 4 }, group).textContent = name;
    x += length;
  }
  return { group, height: y + 10 };
}

async function raster(text, svg) {
  const address = URL.createObjectURL(text);
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = svg.getAttribute('width') * pngScale;
    canvas.height = svg.getAttribute('height') * pngScale;
    canvas.getContext('2d').drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise(resolve => canvas.toBlob(resolve, 'image/png'));
  } finally {
    URL.revokeObjectURL(address);
  }
}

function download(blob, name) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  // The browser reads the address after the click.
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}

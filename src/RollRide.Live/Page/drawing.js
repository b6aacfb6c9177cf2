// The axle seen from behind and from the left, to one scale and with one height axis: the dampers' ends are dragged here.

import { Figure } from './chart.js';
import { Handles } from './handles.js';
import { dampersOf } from './mounts.js';
import { withEdits } from './session.js';
import { line, marker, node, number, scale, ticks } from './svg.js';

const margin = { left: 40, right: 12, top: 26, bottom: 40, between: 40 };
const usualDiameter_mm = 55; // of a damper whose envelope the scenario does not give

export class Drawing {
  #app;
  #figure;
  #ground;
  #back;
  #front;
  #handles;

  constructor(app) {
    this.#app = app;
    this.#figure = new Figure('drawing', () => app.redraw());
    hatch(this.#figure.svg);
    this.#ground = this.#figure.layer('ground');
    this.#back = this.#figure.layer('back');
    this.#front = this.#figure.layer('front');
    this.#handles = new Handles(this.#figure.svg, app);
  }

  draw() {
    const { scene, document: scenario } = this.#app;
    if (!this.#figure.isVisible || !scene || !scenario?.vehicle) return;
    const shown = this.#app.shownLayouts().map(layout => ({ ...layout, dampers: dampersOf(layout.written, layout.index, layout.answer) }));
    const views = this.#views(shown);
    this.#drawGround(views);
    this.#drawDampers(views, shown);
  }

  // Both views: `across` takes millimetres along the view's own axis, to the left of the picture; `up` is shared.
  #views(shown) {
    const { scene, document: scenario } = this.#app;
    const half = Math.max(scene.track_mm / 2, ...scene.tyre.map(([y]) => Math.abs(y))) + 40;
    const heights = shown.flatMap(layout => layout.dampers).flatMap(damper => damper.ends).map(end => end.at[2]);
    const top = Math.max(scenario.vehicle.body?.cgHeight_mm ?? 0, ...heights, ...scene.keepOuts.flatMap(room => room.polygon).map(([, z]) => z)) + 90;
    const [width, height] = [this.#figure.width - margin.left - margin.right - margin.between, this.#figure.height - margin.top - margin.bottom];
    const tyreRadius = Math.max(...scene.tyre.map(([, z]) => z)) / 2;
    const perMillimetre = Math.min(height / (top + 10), width / (2 * half + 2 * tyreRadius + 100));
    const rearWidth = Math.max(2 * half * perMillimetre, width - height * 1.25);
    const middle = margin.left + rearWidth / 2;
    const sideLeft = margin.left + rearWidth + margin.between;
    const sideMiddle = (sideLeft + this.#figure.width - margin.right) / 2;
    const road = this.#figure.height - margin.bottom;
    return {
      up: scale(0, top, road, road - top * perMillimetre),
      rear: { axis: 1, middle, left: margin.left, right: margin.left + rearWidth, across: scale(-half, half, middle + half * perMillimetre, middle - half * perMillimetre) },
      side: { axis: 0, middle: sideMiddle, left: sideLeft, right: this.#figure.width - margin.right, across: scale(-1000, 1000, sideMiddle + 1000 * perMillimetre, sideMiddle - 1000 * perMillimetre) },
      perMillimetre,
      tyreRadius,
      road,
    };
  }

  #drawGround({ up, rear, side, perMillimetre, tyreRadius, road }) {
    const layer = this.#ground;
    const { scene, document: scenario } = this.#app;
    const { body, unsprung, rollCentreHeight_mm: rollCentre } = scenario.vehicle;
    const hub = unsprung?.cgHeight_mm ?? tyreRadius;
    layer.begin();
    layer.put('rt', 'text', { class: 'title', x: 10, y: 17 }, 'Seen from behind');
    layer.put('st', 'text', { class: 'title', x: side.left, y: 17 }, 'Seen from the left');
    for (const view of [rear, side]) layer.put(`road${view.axis}`, 'path', { class: 'road', d: `M${view.left} ${road}H${view.right}` });
    for (const tick of ticks(0, up.to, 5)) {
      layer.put(`z${tick.text}`, 'path', { class: 'grid', d: `M${rear.left} ${up(tick.value).toFixed(1)}H${rear.right}M${side.left} ${up(tick.value).toFixed(1)}H${side.right}` });
      layer.put(`zt${tick.text}`, 'text', { class: 'tick end', x: rear.left - 5, y: up(tick.value) + 4 }, tick.text);
    }

    // The body is a sketch, as in the report's rear view.
    const floor = up(hub + ((body?.cgHeight_mm ?? 2 * hub) - hub) * 0.45);
    const wide = 0.4 * scene.track_mm * perMillimetre;
    layer.put('body', 'rect', { class: 'body', x: rear.middle - wide, y: up(up.to), width: 2 * wide, height: floor - up(up.to) });
    for (const sign of [1, -1]) layer.put(`tyre${sign}`, 'path', { class: 'tyre', d: line(scene.tyre.map(([y, z]) => [rear.across(sign * y), up(z)]), true) });
    layer.put('wheel', 'circle', { class: 'tyre', cx: side.middle, cy: up(tyreRadius), r: tyreRadius * perMillimetre });
    if (scenario.vehicle.suspension === 'liveAxle') {
      layer.put('axle', 'path', { class: 'axle', d: `M${rear.across(scene.track_mm / 2)} ${up(hub)}H${rear.across(-scene.track_mm / 2)}` });
      layer.put('hub', 'circle', { class: 'hub', cx: side.middle, cy: up(hub), r: 5 });
    }
    for (const { name, on, polygon, side: fromSide } of scene.keepOuts) {
      for (const sign of [1, -1]) layer.put(`${name}${sign}`, 'path', { class: `room ${on}`, d: line(polygon.map(([y, z]) => [rear.across(sign * y), up(z)]), true) });
      if (fromSide) layer.put(`${name}side`, 'path', { class: `room ${on}`, d: line(fromSide.map(([x, z]) => [side.across(x), up(z)]), true) });
      const [y, z] = [Math.max(...polygon.map(([v]) => -v)), Math.max(...polygon.map(([, v]) => v))];
      layer.put(`${name}name`, 'text', { class: 'note middle', x: rear.across((y - Math.max(...polygon.map(([v]) => v))) / 2), y: up(z) - 4 }, name);
    }

    layer.put('centre', 'path', { class: 'centre', d: `M${rear.middle} ${up(up.to)}V${road}` });
    if (body) point(layer, 'cg', rear.middle, up(body.cgHeight_mm), 'centre of gravity');
    if (Number.isFinite(rollCentre)) point(layer, 'rc', rear.middle, up(rollCentre), 'roll centre');
    this.#drawRuler(rear, road);
    layer.put('forward', 'text', { class: 'axis middle', x: side.middle, y: this.#figure.height - 6 }, '← forward, x, mm from the axle');
    const reach = (side.right - side.left) / 2 / perMillimetre;
    for (const tick of ticks(-reach, reach, 4)) layer.put(`x${tick.text}`, 'text', { class: 'tick middle', x: side.across(tick.value), y: road + 17 }, tick.text);
    layer.end();
  }

  #drawRuler(rear, road) {
    const layer = this.#ground;
    for (const tick of ticks(rear.across.from, rear.across.to, 8)) layer.put(`y${tick.text}`, 'text', { class: 'tick middle', x: rear.across(tick.value), y: road + 17 }, tick.text);
    const bands = this.#app.scene.bands;
    layer.put('across', 'text', { class: 'axis middle', x: rear.middle, y: this.#figure.height - 6 }, bands ? '← left, y, mm from the centre plane; green: the axle end fits' : '← left, y, mm from the centre plane');
    (bands ?? []).forEach(([from, to], i) => {
      for (const sign of [1, -1])
        layer.put(`band${i}${sign}`, 'path', { class: 'fits', d: `M${rear.across(sign * from).toFixed(1)} ${road + 3}H${rear.across(sign * to).toFixed(1)}` });
    });
  }

  #drawDampers({ up, rear, side }, shown) {
    const handles = [];
    this.#back.begin();
    this.#front.begin();
    for (const layout of shown) {
      for (const damper of layout.dampers) {
        if (damper.ends.length < 2) continue;
        const places = [[rear, damper.sign], ...(damper.isMirrored ? [[rear, -damper.sign]] : []), ...(damper.ends[0].isFlat || damper.sign < 0 ? [] : [[side, 1]])];
        places.forEach(([view, sign], i) => {
          const ends = damper.ends.map(end => [view.across(sign * end.at[view.axis]), up(end.at[2])]);
          const key = `${layout.index}${damper.side}${i}`;
          if (layout.isSelected) this.#drawSelected(key, layout, ends, up);
          else this.#drawOther(key, layout, ends);
          if (layout.isSelected && !(damper.isMirrored && i === 1)) handles.push(...damper.ends.map(end => handle(view, sign, up, layout, damper, end)));
        });
      }
    }
    this.#back.end();
    this.#front.end();
    this.#handles.draw(handles);
  }

  #drawOther(key, layout, ends) {
    this.#back.put(key, 'path', { class: `line s${layout.style}`, d: line(ends) });
    ends.forEach(([x, y], i) => this.#back.put(`${key}m${i}`, 'path', { class: `mark s${layout.style}`, d: marker(layout.style, x, y, 4) }));
  }

  #drawSelected(key, layout, ends, up) {
    const isInTheWay = layout.answer?.place?.isChecked && !layout.answer.place.fits;
    const envelope = this.#app.document.packaging?.envelope;
    const perMillimetre = up(0) - up(1);
    const tubes = [[ends[1], ends[0], envelope?.upperDiameter_mm, envelope?.upperLength_mm], [ends[0], ends[1], envelope?.lowerDiameter_mm, envelope?.lowerLength_mm]];
    tubes.forEach(([from, to, diameter, length], i) =>
      this.#front.put(`${key}t${i}`, 'path', { class: `tube s${layout.style}${isInTheWay ? ' inTheWay' : ''}`, d: tube(from, to, (diameter ?? usualDiameter_mm) * perMillimetre, length * perMillimetre) }));
    this.#front.put(key, 'path', { class: `line selected s${layout.style}`, d: line(ends) });
    ends.forEach(([x, y], i) => this.#front.put(`${key}m${i}`, 'path', { class: `mark s${layout.style}`, d: marker(layout.style, x, y, 4.5) }));
  }
}

/** A tube of a length and diameter on the line between two points; as long as the line where no length is given. */
function tube(from, to, diameter, length) {
  const whole = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const [ux, uy] = [(to[0] - from[0]) / whole, (to[1] - from[1]) / whole];
  const reach = Number.isFinite(length) ? Math.min(length, whole) : whole / 2;
  const corner = (along, across) => [from[0] + ux * along - uy * across, from[1] + uy * along + ux * across];
  return line([corner(0, diameter / 2), corner(reach, diameter / 2), corner(reach, -diameter / 2), corner(0, -diameter / 2)], true);
}

function handle(view, sign, up, layout, damper, end) {
  const names = ['x', 'y', 'z'];
  const to = (across, height) => [0, 1, 2].map(axis => axis === view.axis ? across : axis === 2 ? height : null);
  const move = place => state => withEdits(state, end.moveTo(place));
  const round = (value, isFine) => isFine ? value : Math.round(value);
  const text = `${names[view.axis]} ${number(end.at[view.axis], 1)} mm, z ${number(end.at[2], 1)} mm`;
  return {
    key: `${end.key}${view.axis}`,
    x: view.across(sign * end.at[view.axis]),
    y: up(end.at[2]),
    label: `${layout.name}${damper.side}: ${end.label}, seen from ${view.axis === 1 ? 'behind' : 'the left'}`,
    text,
    now: end.at[view.axis],
    least: -10000,
    most: 10000,
    kind: `s${layout.style}`,
    drag: (x, y, isFine) => move(to(round(sign * view.across.back(x), isFine), round(up.back(y), isFine))),
    // The picture's left is the axis' positive direction, on the right side of the axle the other way about.
    nudge: (right, down, steps) => move(to(end.at[view.axis] - right * sign * steps, end.at[2] - down * steps)),
  };
}

function point(layer, key, x, y, name) {
  layer.put(key, 'path', { class: 'point', d: `M${x - 5} ${y}H${x + 5}M${x} ${y - 5}V${y + 5}` });
  layer.put(`${key}t`, 'text', { class: 'note', x: x + 8, y: y + 4 }, name);
}

// Where a damper cannot stand it is hatched, so that it is not told by colour alone.
function hatch(svg) {
  const pattern = node('pattern', { id: 'hatch', width: 6, height: 6, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' }, node('defs', {}, svg));
  node('rect', { class: 'hatchGround', width: 6, height: 6 }, pattern);
  node('path', { class: 'hatchLine', d: 'M1 0V6' }, pattern);
}

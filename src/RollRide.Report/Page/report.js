"use strict";
(() => {
  const svgNamespace = "http://www.w3.org/2000/svg";
  const make = (parent, name, attributes = {}) => {
    const element = document.createElementNS(svgNamespace, name);
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
    return parent.appendChild(element);
  };
  const numbers = text => text.split(" ").map(Number);

  // ── Showing and hiding layouts ──────────────────────────────────────────────────────────────────
  const hiddenLayouts = new Set();
  const columns = [...document.querySelector("thead").querySelectorAll("th[data-layout]")];
  const layouts = columns.map(cell => cell.dataset.layout);
  // Long names are shortened so that they stay apart.
  const readouts = new Map(columns.map(cell => [cell.dataset.layout, cell.dataset.readout]));
  if (layouts.length > 1) {
    const controls = document.getElementById("controls");
    controls.append("Show:");
    for (const name of layouts) {
      const label = document.createElement("label");
      const box = document.createElement("input");
      box.type = "checkbox";
      box.checked = true;
      box.addEventListener("change", () => {
        if (box.checked) hiddenLayouts.delete(name); else hiddenLayouts.add(name);
        for (const element of document.querySelectorAll("[data-layout]"))
          if (element.dataset.layout === name) element.style.display = box.checked ? "" : "none";
        clearCursors();
      });
      label.append(box, " ", readouts.get(name));
      label.title = name;
      controls.append(label);
    }
    controls.hidden = false;
  }

  // ── The slider: one of a set of figures at a time ───────────────────────────────────────────────
  for (const set of document.querySelectorAll(".frames")) {
    const frames = [...set.querySelectorAll(".frame")];
    const label = document.createElement("label");
    label.className = "slider";
    const slider = document.createElement("input");
    Object.assign(slider, { type: "range", min: 0, max: frames.length - 1, step: 1, value: set.dataset.start });
    const value = document.createElement("output");
    const show = () => {
      frames.forEach((frame, i) => { frame.hidden = i !== Number(slider.value); });
      value.textContent = frames[slider.value].dataset.value;
      slider.setAttribute("aria-valuetext", value.textContent);
    };
    slider.addEventListener("input", show);
    // On paper the figure stands as given, as without this script.
    let seen = slider.value;
    addEventListener("beforeprint", () => { seen = slider.value; slider.value = set.dataset.start; show(); });
    addEventListener("afterprint", () => { slider.value = seen; show(); });
    label.append(set.dataset.label, slider, value);
    set.prepend(label);
    show();
  }

  // ── The readout: every curve over time at the instant under the pointer ─────────────────────────
  // A picture's curves are read from its own polylines, so that what is told is what is drawn.
  const panels = [...document.querySelectorAll(".time-panel")].map(group => {
    const [left, top, width, height] = numbers(group.dataset.area);
    const [from, to] = numbers(group.dataset.time);
    const [low, high] = numbers(group.dataset.range);
    const curves = new Map();
    for (const line of group.querySelectorAll("[data-layout] > polyline")) {
      const name = line.parentElement.dataset.layout;
      const points = line.getAttribute("points").split(" ").map(pair => pair.split(",").map(Number));
      if (!curves.has(name) || points.length > curves.get(name).points.length)
        curves.set(name, { name, points, colour: line.getAttribute("stroke") });
    }
    return { group, svg: group.ownerSVGElement, left, top, width, height, from, to, low, high, curves: [...curves.values()], unit: group.dataset.unit };
  });

  const valueAt = (panel, curve, x) => {
    const points = curve.points;
    if (x < points[0][0] || x > points[points.length - 1][0]) return null;
    let first = 0, last = points.length - 1;
    while (last - first > 1) {
      const middle = (first + last) >> 1;
      if (points[middle][0] <= x) first = middle; else last = middle;
    }
    const [[x0, y0], [x1, y1]] = [points[first], points[last]];
    const y = x1 > x0 ? y0 + (y1 - y0) * (x - x0) / (x1 - x0) : y0;
    return { y, value: panel.high - (y - panel.top) / panel.height * (panel.high - panel.low) };
  };

  const clearCursors = () => document.querySelectorAll(".cursor").forEach(cursor => cursor.remove());

  const showCursor = (panel, time) => {
    const x = panel.left + (time - panel.from) / (panel.to - panel.from) * panel.width;
    if (x < panel.left || x > panel.left + panel.width) return;
    const decimals = Math.max(0, Math.min(6, 3 - Math.ceil(Math.log10(Math.max(Math.abs(panel.low), Math.abs(panel.high), 1e-9)))));
    const rows = panel.curves.filter(curve => !hiddenLayouts.has(curve.name))
      .map(curve => ({ curve, at: valueAt(panel, curve, x) })).filter(row => row.at);
    const cursor = make(panel.svg, "g", { class: "cursor", "pointer-events": "none" });
    make(cursor, "line", { x1: x, x2: x, y1: panel.top, y2: panel.top + panel.height });
    const box = make(cursor, "rect", { rx: 2 });
    const texts = rows.map(({ curve, at }, i) => {
      make(cursor, "circle", { cx: x, cy: at.y, r: 3, fill: curve.colour });
      const text = make(cursor, "text", { y: panel.top + 24 + 12 * i });
      text.textContent = `${readouts.get(curve.name) ?? curve.name} ${at.value.toFixed(decimals).replace("-", "−")} ${panel.unit}`;
      return text;
    });
    const head = make(cursor, "text", { y: panel.top + 12 });
    head.textContent = `${time.toFixed(3)} s`;
    const width = Math.max(...[head, ...texts].map(text => text.getComputedTextLength())) + 18;
    const left = x + 6 + width > panel.left + panel.width ? Math.max(panel.left, x - 6 - width) : x + 6;
    for (const [key, value] of Object.entries({ x: left, y: panel.top + 1, width, height: 16 + 12 * rows.length })) box.setAttribute(key, value);
    head.setAttribute("x", left + 5);
    texts.forEach((text, i) => {
      text.setAttribute("x", left + 14);
      make(cursor, "circle", { cx: left + 7, cy: panel.top + 20.5 + 12 * i, r: 3, fill: rows[i].curve.colour });
    });
  };

  for (const svg of new Set(panels.map(panel => panel.svg))) {
    svg.addEventListener("pointermove", event => {
      const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
      const over = panels.find(panel => panel.svg === svg && at.x >= panel.left && at.x <= panel.left + panel.width
        && at.y >= panel.top && at.y <= panel.top + panel.height);
      clearCursors();
      if (!over) return;
      const time = over.from + (at.x - over.left) / over.width * (over.to - over.from);
      for (const panel of panels) showCursor(panel, time);
    });
    svg.addEventListener("pointerleave", clearCursors);
  }
})();

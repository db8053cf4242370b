"use strict";

// Marks onto SVG: every line as wide and every letter as high as on any screen, whatever the
// scale.  Nothing that a user typed comes here.

const SVG = "http://www.w3.org/2000/svg";

function element(name, attributes = {}, text = "") {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  if (text) made.textContent = text;
  return made;
}

const classOf = (role) => role.replaceAll(".", "-").replaceAll(" ", "-");
const written = ([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`;
const pathOf = (points, end = "") => `M${points.map(written).join("L")}${end}`;

/** Puts a window of paper (mm) into a box of pixels, the scale the same both ways. */
function fitted(window, box) {
  const wide = window.right - window.left, high = window.top - window.bottom;
  const scale = Math.min(box.width / wide, box.height / high);
  const left = box.left + 0.5 * (box.width - scale * wide);
  const bottom = box.top + box.height - 0.5 * (box.height - scale * high);
  return ([x, y]) => [left + scale * (x - window.left), bottom - scale * (y - window.bottom)];
}

function painted(mark, place, hatched) {
  const role = classOf(mark.role);
  if (mark.kind === "dot") {
    const [cx, cy] = place(mark.at);
    return [element("circle", { class: role, cx: cx.toFixed(1), cy: cy.toFixed(1), r: mark.radius })];
  }
  if (mark.kind === "line") return [element("path", { class: role, d: pathOf(mark.points.map(place)) })];
  const d = pathOf(mark.points.map(place), "Z");
  const shape = element("path", { class: role, d });
  return hatched.includes(mark.role) ? [shape, element("path", { class: "hatch", d })] : [shape];
}

/** A dimension line from arrowhead to arrowhead, its figure along it on the side away from the feet. */
function dimensionLine(mark, place, text) {
  let [a, b] = [place(mark.start), place(mark.end)];
  const shift = 26 * mark.level;
  const [ox, oy] = [mark.out[0] * shift, -mark.out[1] * shift];
  a = [a[0] + ox, a[1] + oy];
  b = [b[0] + ox, b[1] + oy];
  if (a[0] > b[0] + 0.5 || (abs(a[0] - b[0]) <= 0.5 && a[1] < b[1])) [a, b] = [b, a];
  const far = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  const along = [(b[0] - a[0]) / far, (b[1] - a[1]) / far], aside = [-along[1], along[0]];
  const head = (tip, way) => {
    const at = (back, out) => [
      tip[0] + way * back * along[0] + out * aside[0],
      tip[1] + way * back * along[1] + out * aside[1],
    ];
    return pathOf([at(8, 2.6), tip, at(8, -2.6)], "Z");
  };
  const middle = [0.5 * (a[0] + b[0]) - 6 * aside[0], 0.5 * (a[1] + b[1]) - 6 * aside[1]];
  const degrees = atan2(along[1], along[0]) / RADIANS;
  return [
    element("path", { class: "dimension", d: pathOf([a, b]) }),
    element("path", { class: "arrow", d: head(a, 1) + head(b, -1) }),
    element("text", {
      class: "word", "text-anchor": "middle",
      transform: `translate(${written(middle)}) rotate(${degrees.toFixed(2)})`,
    }, text),
  ];
}

/** Signs that tell states apart without colour: a tick in a ring, a lozenge, a triangle. */
function sign(state, x, y) {
  const path = (look, d) => element("path", { class: look, d: `M${x} ${y}${d}` });
  if (state === "out") return [path("sign filled", "m0-7.5l8 14.5h-16Z")];
  if (state === "near") return [path("sign", "m-7.5 0l7.5-7.5 7.5 7.5-7.5 7.5Z"), path("sign filled", "m0-7.5v15l-7.5-7.5Z")];
  if (state === "none") return [path("sign", "m-6 0h12")];
  return [element("circle", { class: "sign", cx: x, cy: y, r: 7 }), path("sign", "m-3.2 .2l2.3 2.4 4.2-4.8")];
}

/** A leg's figure in the band over a drawing, with a line to what it is of. */
function callout({ end, edge, target, sign: state, number, lines, loud }, place, width) {
  const x = edge < 0 ? 6 : width - 6, inward = -edge;
  const anchor = edge < 0 ? "start" : "end";
  const look = loud ? "loud" : end;
  const group = element("g", { class: `call ${look}` });
  const to = place(target), foot = 26 + 20 * lines.length;
  const from = [Math.min(Math.max(to[0], 26), width - 26), foot];
  const reach = edge < 0 ? Math.min(from[0], 0.4 * width) : Math.max(from[0], 0.6 * width);
  group.append(
    element("path", { class: "leader", d: pathOf([[reach, foot], to]) }),
    ...sign(state, x + inward * 9, 13),
    element("text", { class: "figure", x: x + inward * 22, y: 20, "text-anchor": anchor }, number),
    ...lines.map((line, i) => element("text", { x, y: 40 + 20 * i, "text-anchor": anchor }, line)),
  );
  return group;
}

/** Paints a view onto its drawing, `width` by `height` pixels. */
function paintView(svg, view, { width, height, band, foot, side }, texts) {
  const box = { left: side, top: band, width: width - 2 * side, height: height - band - foot };
  const place = fitted(view.window, box);
  const made = [];
  for (const mark of view.marks) {
    if (mark.kind === "span") made.push(...dimensionLine(mark, place, texts.spans[mark.key]));
    else made.push(...painted(mark, place, texts.hatched));
  }
  for (const call of view.calls) made.push(callout(call, place, width));
  for (const label of view.labels || []) {
    const [x, y] = place(label.at);
    made.push(element("text", texts.placed(label, x, y, place, width, height), texts.said(label)));
  }
  if (texts.notice) {
    texts.notice.forEach((said, i) => made.push(
      element("text", { class: "notice", x: width / 2, y: 60 + 22 * i, "text-anchor": "middle" }, said),
    ));
  }
  svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
  svg.querySelector("g").replaceChildren(...made);
}

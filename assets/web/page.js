"use strict";

// The page: what was saved, what the sliders and the address say, and all that is shown of it.
// Nothing is read back from a control but what a hand has just done to it.

const TOLD = JSON.parse(document.getElementById("told").textContent);
const WORDS = TOLD.words;
const solve = solver(TOLD.constants);
const SHAPE = shapeOf(TOLD.shape);
const byId = (id) => document.getElementById(id);
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const [IN_PLANE, DRIFTING, OUT_OF_PLANE, NO_POSTURE] = TOLD.states;
const MINUS = "\u2212";

// Numbers as Kneeline writes them

/** So many decimals; what lies just between two goes to the even one, as in the program. */
function rounded(value, decimals) {
  const between = abs(value) * 2 ** (decimals + 1);
  if (decimals > 3 || between % 2 !== 1) return value.toFixed(decimals);
  const low = Math.floor(abs(value) * 10 ** decimals), even = low % 2 ? low + 1 : low;
  return ((value < 0 ? -even : even) / 10 ** decimals).toFixed(decimals);
}

const fixed = (value, decimals) =>
  rounded(value, decimals).replace("-", MINUS).replace(".", TOLD.decimal_mark);

/** As few decimals as tell it, from the least to the most. */
function shortest(value, least, most) {
  let [whole, decimals = ""] = rounded(abs(value), most).split(".");
  decimals = decimals.replace(/0+$/, "").padEnd(least, "0");
  const text = decimals ? whole + TOLD.decimal_mark + decimals : whole;
  return value < 0 && /[1-9]/.test(text) ? MINUS + text : text;
}

const plain = (value, decimals = 1) => shortest(value, 0, decimals);
const figure = (value, unit) => shortest(value / unit.size, ...unit.decimals);
const amount = (value, unit) => figure(value, unit) + unit.suffix;
const filled = (template, values) =>
  template.replace(/\{(\w+)\}/g, (_, name) => values[name]);

/** A value with the word that its sign stands for: "6.0° inward cant", "flat". */
function spoken(field, value) {
  if (!field.signs) return amount(value, field.unit);
  if (!/[1-9]/.test(figure(value, field.unit))) return field.zero;
  const side = field.signs[value < 0 ? 1 : 0];
  return filled(WORDS.amount_side, { amount: amount(abs(value), field.unit), side });
}

// What is in force

const copied = (inputs) => ({ ...inputs, left: { ...inputs.left }, right: { ...inputs.right } });
let inputs = copied(TOLD.saved);

const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);
const SIDES = ["left", "right"];

/** The side in front of a name, "" without one, and the rest of it. */
function sideAndName(name) {
  const side = SIDES.find((each) => name.startsWith(`${each}_`));
  const rest = side ? name.slice(side.length + 1) : name;
  return side && Object.hasOwn(TOLD.saved.left, rest) ? [side, rest] : ["", name];
}

/** The inputs that an address asks for, and a sentence for each part that cannot be taken. */
function asked(hash) {
  const made = copied(TOLD.saved), refused = [];
  const pairs = [...new URLSearchParams(hash.replace(/^#/, ""))];
  const sided = ([name]) => (sideAndName(name)[0] ? 1 : 0);
  for (const [name, text] of pairs.sort((a, b) => sided(a) - sided(b))) {
    const [side, of] = sideAndName(name);
    const range = Object.hasOwn(TOLD.ranges, of) && TOLD.ranges[of];
    const value = text.trim() === "" ? NaN : Number(text.replace(",", "."));
    if (name === "lead_foot" && SIDES.includes(text)) made.lead_foot = text;
    else if (!range && name !== "lead_foot") refused.push(filled(WORDS.no_input, { name }));
    else if (!range || !(value >= range[0] && value <= range[1])) {
      const allowed = range ? filled(WORDS.range, { low: plain(range[0]), high: plain(range[1]) }) : SIDES.join(", ");
      refused.push(filled(WORDS.not_taken, { name, value: text, range: allowed }));
    } else if (Object.hasOwn(made.left, of)) {
      for (const each of side ? [side] : SIDES) made[each][of] = value;
    } else made[of] = value;
  }
  for (const side of SIDES) {
    const { ankle_height_mm: ankle, knee_height_mm: knee, hip_height_mm: hip } = made[side];
    if (!(ankle < knee && knee < hip)) {
      made[side] = { ...TOLD.saved[side] };
      refused.push(WORDS.heights);
    }
  }
  return [made, refused];
}

// What the legs do

function stateOf(offPlane) {
  if (!Number.isFinite(offPlane)) return NO_POSTURE;
  const shown = Number(rounded(abs(offPlane), 1));
  if (shown <= TOLD.limits.in_plane) return IN_PLANE;
  return shown <= TOLD.limits.drifting ? DRIFTING : OUT_OF_PLANE;
}

function bootOf(flex, own) {
  const left = Number(rounded(own.flex_range_deg - abs(flex - own.forward_lean_deg), 1));
  if (left < 0) return "out";
  return left < TOLD.boot_near ? "near" : "in";
}

/** All that is shown of one stance. */
function shownOf(given) {
  const solved = solve(given);
  const shown = { inputs: given, shape: SHAPE, hand: given.lead_foot === "left" ? 1 : -1, legs: {} };
  Object.assign(shown, solved, { figures: {}, states: {} });
  for (const end of ENDS) {
    const leg = solved[end], own = leg.chain.own;
    const off = leg.offPlane / RADIANS, flex = leg.bootFlex / RADIANS;
    shown.figures[end] = figureOf(leg, SHAPE);
    shown.states[end] = stateOf(off);
    shown.legs[end] = { off, flex, bend: leg.kneeFlexion / RADIANS, own, boot: bootOf(flex, own) };
  }
  return shown;
}

/** "14.5° out of its plane, bow-legged" */
function findingOf(shown, end) {
  const state = shown.states[end], { off } = shown.legs[end];
  const said = WORDS.states[state], angle = `${fixed(abs(off), 1)}°`;
  if (state === NO_POSTURE) return said;
  if (state === IN_PLANE) return Number(rounded(abs(off), 1)) ? filled(WORDS.in_plane, { angle }) : said;
  const way = off > 0 ? WORDS.knock_kneed : WORDS.bow_legged;
  return filled(WORDS.finding, { angle, state: filled(WORDS.state_way, { state: said, way }) });
}

function bootWords({ flex, bend, own, boot }) {
  return filled(WORDS.boots[boot], {
    flex: plain(flex, boot === "in" ? 0 : 1),
    low: plain(own.forward_lean_deg - own.flex_range_deg, 0),
    high: plain(own.forward_lean_deg + own.flex_range_deg, 0),
    bend: plain(bend, 0),
  });
}

function reasonOf({ rearAtFault, leavesPlane }) {
  return WORDS.reasons[rearAtFault ? "rear" : "front"][leavesPlane ? "knee" : "leg"];
}

// Showing

const SIGNS = { [IN_PLANE]: "in", [DRIFTING]: "near", [OUT_OF_PLANE]: "out", [NO_POSTURE]: "none" };

/** What signs and words over, under and beside a drawing take (px). */
const ROOM = {
  above: { band: 24, foot: 26, side: 44 },
  front: { band: 50, foot: 6, side: 6 },
  side: { band: 70, foot: 6, side: 6 },
};

function called(view, shown, told) {
  if (!shown.exists) return [];
  return view.calls.map((call) => ({ ...call, ...told(call.end) }));
}

function labelText(label, { inputs: given, share }) {
  if (label.what === "angle") {
    const angle = plain(given[`${label.end}_angle_deg`]);
    return filled(WORDS.angles[label.end], { angle });
  }
  if (label.what === "share") return filled(WORDS.share, { share: rounded(100 * share, 0) });
  return WORDS[label.what];
}

/** Where a label of the plan stands: beside its heel, under the board, at its ends. */
function labelPlace(label, x, y, place, width) {
  if (label.what === "share") return { class: "word ink", x, y: y + 22, "text-anchor": "middle" };
  if (label.what === "angle") {
    const way = x - place(label.from)[0], anchor = abs(way) < 8 ? "middle" : way > 0 ? "start" : "end";
    const room = 76;
    const held = anchor === "start" ? Math.min(x, width - room) : anchor === "end" ? Math.max(x, room) : x;
    return { class: `word ${label.end} cleared`, x: held, y: y + 5, "text-anchor": anchor };
  }
  const end = label.at[0] < 0;
  return {
    class: "word", x: x + (end ? -6 : 6), y: y + (label.what === "nose" ? 14 : -4),
    "text-anchor": end ? "end" : "start",
  };
}

function paint(shown) {
  const { legs, states } = shown;
  const views = { above: fromAbove(shown), front: fromTheFront(shown), side: fromTheSide(shown) };
  const lengths = {
    neutral: filled(WORDS.natural, { length: dimension(shown.inputs.neutral_spacing_mm) }),
    long_axes: filled(WORDS.feet, { length: dimension(abs(apart(shown.inputs))) }),
    length: dimension(shown.inputs.stance_length_mm),
    across: dimension(abs(shown.inputs.across_spacing_mm)),
  };
  views.front.calls = called(views.front, shown, (end) => ({
    sign: SIGNS[states[end]], loud: states[end] !== IN_PLANE,
    number: `${fixed(abs(legs[end].off), 1)}°`, lines: [WORDS.ends[end]],
  }));
  views.side.calls = called(views.side, shown, (end) => ({
    sign: legs[end].boot, loud: legs[end].boot === "out",
    number: `${plain(legs[end].flex, legs[end].boot === "in" ? 0 : 1)}°`,
    lines: [WORDS.ends[end], spoken(TOLD.lifts[end], shown.inputs[`${end}_lift_deg`])],
  }));
  for (const [key, view] of Object.entries(views)) {
    const svg = byId(`drawn-${key}`);
    const { clientWidth: width, clientHeight: height } = svg;
    if (!width) continue;
    const upright = key !== "above";
    paintView(svg, view, { width, height, ...ROOM[key] }, {
      spans: lengths,
      hatched: TOLD.hatched,
      said: (label) => labelText(label, shown),
      placed: labelPlace,
      notice: upright && !shown.exists && [WORDS.states[NO_POSTURE]],
    });
  }
}

/** A length as a dimension figure: bare in millimetres, as drawings have it. */
function dimension(length) {
  const { unit } = TOLD;
  if (unit.size === 1) return figure(Number(rounded(length, 0)), unit);
  return shortest(length / unit.size, 0, 1) + unit.suffix;
}

/** How far apart the long axes of the feet are (mm). */
function apart(given) {
  const angle = 0.5 * (given.front_angle_deg + given.rear_angle_deg) * RADIANS;
  return given.stance_length_mm * cos(angle) + given.across_spacing_mm * sin(angle);
}

function tell(id, text) {
  const part = byId(id);
  if (part.textContent !== text) part.textContent = text;
}

function show() {
  const shown = shownOf(inputs);
  for (const end of ENDS) {
    const leg = shown.legs[end], state = shown.states[end];
    const output = byId(`${end}-off-plane`);
    output.dataset.value = shown.exists ? leg.off : "";
    output.className = state === IN_PLANE ? "" : "loud";
    tell(`${end}-off-plane`, findingOf(shown, end));
    tell(`${end}-boot`, shown.exists ? bootWords(leg) : "");
    byId(`${end}-boot`).className = leg.boot === "out" ? "loud" : "";
  }
  tell("why-not", shown.exists ? "" : reasonOf(shown));
  for (const field of TOLD.sliders) {
    const value = inputs[field.name], said = spoken(field, value);
    const slider = byId(field.name);
    if (Number(slider.value) !== value) slider.value = value;
    slider.setAttribute("aria-valuetext", said);
    tell(`${field.name}-said`, said);
  }
  const moved = !same(inputs, TOLD.saved);
  byId("answer").classList.toggle("of-saved", moved);
  byId("moved").hidden = !moved;
  byId("as-saved").disabled = !moved;
  const put = byId("put-on");
  if (put) put.disabled = Object.entries(TOLD.begin).every(([name, value]) => inputs[name] === value);
  paint(shown);
  announce(shown);
  return shown;
}

let toSay = 0;
/** Says what came of it once the hand rests, for those who cannot see it. */
function announce(shown) {
  clearTimeout(toSay);
  const said = ENDS.map((end) => filled(WORDS.headlines[end], { finding: findingOf(shown, end) }));
  for (const key of ["above", "front", "side"]) {
    byId(`drawn-${key}`).querySelector("desc").textContent = said.join("; ");
  }
  toSay = setTimeout(() => tell("said", said.join(". ")), 700);
}

// Hands

function clippedTo(field, value) {
  return Math.min(Math.max(Math.round(value * 1e6) / 1e6, field.low), field.high);
}

function take(changes) {
  moving = 0;
  inputs = { ...inputs, ...changes };
  show();
}

let moving = 0;
/** Goes to other inputs in steps that can be watched; at once where motion is not wanted. */
function goTo(aim) {
  if (calm.matches) {
    moving = 0;
    inputs = copied(aim);
    show();
    return;
  }
  const from = copied(inputs), begun = performance.now(), turn = (moving = begun);
  const step = (now) => {
    if (moving !== turn) return;
    const t = Math.min(Math.max((now - begun) / 450, 0), 1), eased = t * t * (3 - 2 * t);
    inputs = copied(aim);
    for (const [name, value] of Object.entries(t < 1 ? aim : {})) {
      if (typeof value === "number") inputs[name] = from[name] + eased * (value - from[name]);
    }
    show();
    if (t < 1) requestAnimationFrame(step);
  };
  requestAnimationFrame(step);
}

function connect() {
  for (const field of TOLD.sliders) {
    const slider = byId(field.name);
    slider.addEventListener("input", () => take({ [field.name]: Number(slider.value) }));
    for (const [id, way] of [["less", -1], ["more", 1]]) {
      byId(`${field.name}-${id}`).addEventListener("click", () =>
        take({ [field.name]: clippedTo(field, inputs[field.name] + way * field.step) }),
      );
    }
  }
  byId("as-saved").addEventListener("click", () => goTo(TOLD.saved));
  const put = byId("put-on");
  if (put) put.addEventListener("click", () => goTo({ ...inputs, ...TOLD.begin }));
  for (const choice of document.querySelectorAll("input[name=view]")) {
    choice.addEventListener("change", () => {
      byId("views").dataset.shown = choice.value;
      show();
    });
  }
  addEventListener("hashchange", follow);
  new ResizeObserver(() => show()).observe(byId("views"));
}

/** Begins as saved, with what the address asks for. */
function follow() {
  const [made, refused] = asked(location.hash);
  moving = 0;
  inputs = made;
  byId("refused").replaceChildren(
    ...refused.map((said) => {
      const part = document.createElement("p");
      part.textContent = said;
      return part;
    }),
  );
  show();
}

connect();
follow();

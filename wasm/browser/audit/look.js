// What a hand or an eye meets on the page as it stands: one line for each
// fault.
const TARGET = 48; // CSS px, each way
const CONTRAST = 7;
const found = [];

const fault = (kind, el, more) => found.push(kind + ": " + call(el) + ": " + more);

// Targets. A link in running text is as high as its line (2.5.8 lets it be).
const inText = (el) =>
  el.matches("a") && style(el).display === "inline" && el.parentElement.textContent.trim() !== el.textContent.trim();
const join = (a, b) => ({
  left: Math.min(a.left, b.left), top: Math.min(a.top, b.top),
  right: Math.max(a.right, b.right), bottom: Math.max(a.bottom, b.bottom),
});
const hitArea = (el) => {
  let r = el.getBoundingClientRect();
  if (el.matches("input[type=checkbox], input[type=radio]")) for (const l of el.labels) r = join(r, l.getBoundingClientRect());
  return r;
};
const WORKED =
  "a[href], button, input:not([type=hidden]), select, textarea, summary, [role=button], [role=link], [role=tab], " +
  "[role=checkbox], [role=radio], [role=switch], [role=slider], [role=option], [role=menuitem], [tabindex]";
for (const el of document.querySelectorAll(WORKED)) {
  if (!shown(el) || inText(el)) continue;
  const r = hitArea(el);
  const [w, h] = [r.right - r.left, r.bottom - r.top];
  if (w < TARGET - 0.05 || h < TARGET - 0.05) fault("target", el, w.toFixed(1) + " by " + h.toFixed(1) + " px");
  for (const icon of el.matches("a, button") ? el.querySelectorAll("svg, img") : []) {
    const i = icon.getBoundingClientRect();
    if (i.left < r.left - 1 || i.right > r.right + 1 || i.top < r.top - 1 || i.bottom > r.bottom + 1) fault("cut off", el, "its picture reaches out of it");
  }
}

// inDrawing is what is painted before a text of a drawing, at one point.
const inDrawing = (text, x, y) => {
  const svg = text.ownerSVGElement;
  let under = ground(svg.parentElement);
  for (const el of svg.querySelectorAll("path, circle, rect, ellipse, polygon, polyline")) {
    if (!(el.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING)) break;
    const s = style(el);
    if (!under || s.fill === "none" || !shown(el)) continue;
    const p = new DOMPoint(x, y).matrixTransform(el.getScreenCTM().inverse());
    if (el.isPointInFill(p)) under = s.fill.startsWith("url") ? null : over(colour(s.fill), under, colour(s.fill).a * s.fillOpacity * veil(el));
  }
  return under;
};
const contrast = (el, words, css, under, opacity = 1) => {
  if (!under) return fault("contrast", el, "a picture lies behind " + words);
  const c = colour(css);
  const got = ratio(over(c, under, c.a * opacity), under);
  if (got < CONTRAST) fault("contrast", el, got.toFixed(1) + ":1 for " + words);
};

// Texts: their contrast, and whether all of them is to be seen.
const boxes = (node) => {
  const range = document.createRange();
  range.selectNodeContents(node);
  return [...range.getClientRects()].filter((r) => r.width > 0 && r.height > 0);
};
// cutBy is the element that cuts a box off; what can be scrolled to is not cut.
const cutBy = (el, r) => {
  let [x, y] = [true, true];
  for (; el && el !== document.documentElement && (x || y); el = el.parentElement) {
    const s = style(el);
    const box = el.getBoundingClientRect();
    if (s.overflowX === "auto" || s.overflowX === "scroll") x = false;
    if (s.overflowY === "auto" || s.overflowY === "scroll") y = false;
    const cuts = (way) => way === "hidden" || way === "clip";
    if (x && cuts(s.overflowX) && s.textOverflow !== "ellipsis" && (r.left < box.left - 1 || r.right > box.right + 1)) return el;
    if (y && cuts(s.overflowY) && (r.top < box.top - 1 || r.bottom > box.bottom + 1)) return el;
    if (s.position === "fixed") break;
  }
  return null;
};
// A part that only a screen reader is to meet: one pixel, cut off.
const unseen = (el) => {
  for (; el; el = el.parentElement) {
    const r = el.getBoundingClientRect();
    if (style(el).overflow === "hidden" && r.width <= 1 && r.height <= 1) return true;
  }
  return false;
};
let texts = 0;
const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
while (walk.nextNode()) {
  const node = walk.currentNode;
  const el = node.parentElement;
  const words = JSON.stringify(node.data.trim().slice(0, 50));
  if (!node.data.trim() || el.matches("script, style, title, noscript, option") || !shown(el) || unseen(el)) continue;
  const rects = boxes(node);
  if (!rects.length) continue;
  texts++;
  if (el instanceof SVGElement) {
    const r = rects[0];
    const s = style(el);
    for (const at of [0.1, 0.5, 0.9])
      contrast(el, words, s.fill, inDrawing(el.closest("text"), r.left + r.width * at, r.top + r.height / 2), s.fillOpacity * veil(el));
    continue;
  }
  contrast(el, words, style(el).color, ground(el), veil(el));
  const worked = el.closest("a[href], button");
  for (const r of rects) {
    const cut = cutBy(el, r);
    if (cut) {
      fault("cut off", el, words + " by " + call(cut));
      break;
    }
    if (!worked || inText(worked) || style(el).textOverflow === "ellipsis") continue;
    const key = worked.getBoundingClientRect();
    if (r.left < key.left - 1 || r.right > key.right + 1 || r.top < key.top - 1 || r.bottom > key.bottom + 1) {
      fault("cut off", el, words + " reaches out of its key");
      break;
    }
  }
}
if (!texts) found.push("empty: no text is shown");

// What is typed, and what stands there until it is.
for (const el of document.querySelectorAll("input, textarea, select")) {
  if (!shown(el) || el.matches("[type=range], [type=checkbox], [type=radio], [type=file], [type=color]")) continue;
  contrast(el, "what is typed", style(el).color, ground(el), veil(el));
  if (!el.placeholder) continue;
  const s = style(el, "::placeholder");
  contrast(el, "the hint " + el.placeholder, s.color, ground(el), veil(el) * s.opacity);
  pot.font = s.font;
  const room = el.clientWidth - parseFloat(style(el).paddingLeft) - parseFloat(style(el).paddingRight);
  const wide = pot.measureText(el.placeholder).width;
  if (wide > room) fault("cut off", el, "the hint " + el.placeholder + " is " + (wide - room).toFixed(0) + " px too long");
}

// Widths. What scrolls sideways inside its own box is let off.
const wide = document.documentElement.clientWidth;
const inScroller = (el) => {
  for (el = el.parentElement; el && el !== document.body; el = el.parentElement) if (style(el).overflowX !== "visible") return true;
  return false;
};
const over1 = [...document.body.querySelectorAll("*")].filter((el) => {
  if (!shown(el) || el instanceof SVGElement || unseen(el)) return false;
  const r = el.getBoundingClientRect();
  return r.width > 0 && (r.right > wide + 1 || r.left < -1) && !inScroller(el);
});
for (const el of over1.filter((el) => !over1.some((o) => o !== el && el.contains(o))).slice(0, 5)) {
  const r = el.getBoundingClientRect();
  fault("wider than the screen", el, "from " + r.left.toFixed(0) + " to " + r.right.toFixed(0) + " of " + wide + " px");
}
const reach = Math.max(document.documentElement.scrollWidth, document.body.scrollWidth);
if (reach > wide && !over1.length) found.push("wider than the screen: the page reaches to " + reach + " of " + wide + " px");
return [...new Set(found)];

// What look.js and focus.js have in common: how an element is called in a
// fault, whether it is shown, and its colours as the browser paints them.
const call = (el) => {
  const text = (el.getAttribute("aria-label") || el.textContent || el.value || "").trim().replace(/\s+/g, " ").slice(0, 50);
  const kind = el.id ? "#" + el.id : el.classList.length ? "." + el.classList[0] : "";
  return el.tagName.toLowerCase() + kind + ' "' + text + '"';
};
const shown = (el) => el.checkVisibility({ visibilityProperty: true, opacityProperty: true });
const style = (el, part) => getComputedStyle(el, part);

const pot = new OffscreenCanvas(1, 1).getContext("2d", { willReadFrequently: true });
const painted = new Map();
const colour = (css) => {
  if (!painted.has(css)) {
    pot.clearRect(0, 0, 1, 1);
    pot.fillStyle = css;
    pot.fillRect(0, 0, 1, 1);
    const [r, g, b, a] = pot.getImageData(0, 0, 1, 1).data;
    painted.set(css, { r, g, b, a: a / 255 });
  }
  return painted.get(css);
};
const over = (top, under, a = top.a) => ({
  r: top.r * a + under.r * (1 - a), g: top.g * a + under.g * (1 - a), b: top.b * a + under.b * (1 - a), a: 1,
});
// Relative luminance and contrast as WCAG 2 defines them.
const light = ({ r, g, b }) => {
  const lin = (c) => ((c /= 255) <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
  return 0.2126 * lin(r) + 0.7152 * lin(g) + 0.0722 * lin(b);
};
const ratio = (a, b) => {
  const [hi, lo] = [light(a), light(b)].sort((x, y) => y - x);
  return (hi + 0.05) / (lo + 0.05);
};
const WHITE = { r: 255, g: 255, b: 255, a: 1 };
const veil = (el) => {
  let o = 1;
  for (; el; el = el.parentElement) o *= Number(style(el).opacity);
  return o;
};
// ground is what lies behind the text of an element: null where a picture does.
const ground = (el) => {
  const layers = [];
  for (; el; el = el.parentElement) {
    const s = style(el);
    if (s.backgroundImage !== "none") return null;
    const c = colour(s.backgroundColor);
    if (c.a > 0) layers.unshift(c);
    if (c.a === 1) break;
  }
  return layers.reduce((under, top) => over(top, under), WHITE);
};

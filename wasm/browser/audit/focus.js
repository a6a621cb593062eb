// Follows the focus through the page, key by key: see Audit.Focus.
const found = [];
const met = new Set();
const fault = (el, more) => found.push("focus: " + call(el) + ": " + more);

// marked tells whether an element shows that it has the focus: by an outline
// that stands out from what is around it (3:1, as 1.4.11 asks), or by looking
// otherwise than without it.
const marked = (el) => {
  const s = style(el);
  if (s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2) {
    const around = ground(parseFloat(s.outlineOffset) >= 0 ? el.parentElement : el);
    const c = colour(s.outlineColor);
    return around && ratio(over(c, around), around) >= 3;
  }
  const looks = () => [style(el).boxShadow, style(el).borderColor, style(el).borderWidth, style(el).backgroundColor].join();
  const focused = looks();
  el.blur();
  const plain = looks();
  el.focus({ preventScroll: true });
  return focused !== plain;
};
// covered tells whether something that is painted lies between an element and
// what is met at a place of it; a clear key over a drawing lets it be seen.
const covered = (el, hit) => {
  for (; hit && !hit.contains(el); hit = hit.parentElement)
    if (hit.textContent.trim() || style(hit).backgroundImage !== "none" || colour(style(hit).backgroundColor).a > 0) return true;
  return false;
};
// In sight: the middle of what is on the screen of it is its own.
const look = (el) => {
  if (!marked(el)) fault(el, "nothing shows that it has the focus");
  const r = el.getBoundingClientRect();
  const [l, t] = [Math.max(r.left, 0), Math.max(r.top, 0)];
  const [w, h] = [Math.min(r.right, innerWidth) - l, Math.min(r.bottom, innerHeight) - t];
  if (w < 1 || h < 1) return fault(el, "it is out of sight when it has the focus");
  const hit = document.elementFromPoint(l + w / 2, t + h / 2);
  if (hit && !el.contains(hit) && covered(el, hit)) fault(el, "it lies under " + call(hit) + " when it has the focus");
};

const TABBED = "a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex], [contenteditable]";
const tabbed = () => {
  const modal = document.querySelector("dialog:modal");
  return [...document.querySelectorAll(TABBED)].filter(
    (el) => shown(el) && !el.matches(":disabled") && el.tabIndex >= 0 && !el.closest("[inert]") && (!modal || modal.contains(el)));
};
// One radio of a group stands for all of it.
const wasMet = (el) => met.has(el) || (el.type === "radio" && [...met].some((m) => m.type === "radio" && m.name === el.name));

// From the top, as on a page just opened.
document.body.tabIndex = -1;
document.body.focus({ preventScroll: true });
document.body.removeAttribute("tabindex");
scrollTo(0, 0);

return {
  // step looks at what the key has led to, and tells whether that is the end.
  step: async () => {
    const el = document.activeElement;
    if (!el || el === document.body || met.has(el)) return true;
    met.add(el);
    look(el);
    // A field may bring out keys of its own.
    if (el.matches("input, textarea")) await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    return false;
  },
  end: () => {
    for (const el of tabbed()) if (!wasMet(el)) fault(el, "the Tab key does not reach it");
    return found;
  },
};

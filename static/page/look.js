"use strict";

// Shows what the Book showed last, before the program runs: it stands within the page, and
// is heard before the first frame. What is touched there is marked, and pressed as soon as
// the program's own stands.
(() => {
  const LOOK = "chalkfold-look"; // in localStorage: the page as the Book stood in it
  const SETTLED = 1_000; // ms after which the Book stands still
  const LATE = 5_000; // ms after which it is said that the program has not come
  const splash = document.getElementById("first");
  let resting = false; // the Book shows what it will show when the page is opened again
  let touched = null; // a key, by its name and its place among those of that name

  const atBook = () => ["", "#book"].includes(location.hash);
  const keys = () => [...document.querySelectorAll(".desk button:enabled")];
  // nameOf tells keys of the open job by that job.
  const nameOf = (key) => [key.closest("#open-job"), key].map((el) => el && (el.ariaLabel || el.textContent)).join("|");

  const keep = () => {
    const desk = document.querySelector(".desk:not(#first)");
    if (!resting || !atBook() || !desk) return;
    try {
      localStorage.setItem(LOOK, desk.innerHTML);
    } catch {
      // There is no room for it, or the browser keeps nothing of that kind.
    }
  };
  const hide = () => document.querySelector("#first.desk")?.replaceWith(splash);
  const show = (html) => {
    const desk = document.createElement("div");
    desk.id = splash.id;
    desk.className = "desk";
    desk.innerHTML = html;
    desk.querySelector("#saving")?.replaceChildren(); // it was, then
    for (const field of desk.querySelectorAll("input, select, textarea")) field.inert = true;
    desk.onclick = (e) => {
      const key = e.target.closest("button");
      desk.querySelector(".touched")?.classList.remove("touched");
      key?.classList.add("touched");
      touched = key && { name: nameOf(key), at: keys().filter((k) => nameOf(k) === nameOf(key)).indexOf(key) };
    };
    splash.replaceWith(desk);
    setTimeout(hide, LATE);
  };
  // end presses what was touched, if it is still there.
  const end = () => {
    if (touched) keys().filter((k) => nameOf(k) === touched.name)[touched.at]?.click();
    touched = null;
  };
  const rests = (yes) => {
    resting = yes;
    if (yes) setTimeout(keep, SETTLED);
  };

  window.chalkfold.last = { splash, keep, hide, end, rests };
  const html = navigator.serviceWorker?.controller && atBook() && window.chalkfold.stored(LOOK);
  if (html) show(html);
})();

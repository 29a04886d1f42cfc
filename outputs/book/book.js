"use strict";
window.scarfwright = { pieces: {} };

// Keeps ticks and the record on this device, and fills the pieces once the book has been painted; where nobody tells
// of that, or nothing is painted yet, in a while.
scarfwright.start = () => {
  scarfwright.keep(document.getElementById("main"));
  let begun = false;
  const fill = () => {
    if (!begun) scarfwright.fill();
    begun = true;
  };
  setTimeout(fill, 2000);
  try {
    new PerformanceObserver(() => setTimeout(fill)).observe({ type: "paint", buffered: true });
  } catch {
    // an old browser
  }
};

// Fills every piece with its data. One piece that fails stops no other.
scarfwright.fill = () => {
  const data = JSON.parse(document.getElementById("book-data").textContent);
  for (const [key, one] of Object.entries(data)) {
    const root = document.querySelector(`[data-piece="${key}"]`);
    try {
      if (root && scarfwright.pieces[key]) scarfwright.pieces[key](root, one);
    } catch (error) {
      console.error(key, error);
    }
  }
  document.documentElement.setAttribute("data-filled", "");
};

// What is ticked or written is kept under the job's own mark; where nothing can be kept, it lasts as long as the page.
scarfwright.keep = (main) => {
  const name = "scarfwright:" + main.dataset.job;
  let held = {};
  try {
    held = JSON.parse(localStorage.getItem(name)) || {};
  } catch {
    held = {};
  }
  const boxes = [...main.querySelectorAll("ol.steps input, ul.steps input, input[data-keep]")];
  const clear = document.getElementById("book-clear-line");
  const show = () => {
    for (const box of boxes) {
      if (box.type === "checkbox") box.checked = held[box.id] === true;
      else box.value = typeof held[box.id] === "string" ? held[box.id] : "";
    }
  };
  const store = () => {
    clear.hidden = Object.keys(held).length === 0;
    try {
      if (clear.hidden) localStorage.removeItem(name);
      else localStorage.setItem(name, JSON.stringify(held));
    } catch {
      // private windows keep nothing
    }
  };
  const changed = (event) => {
    const box = event.target;
    if (!boxes.includes(box)) return;
    const value = box.type === "checkbox" ? box.checked : box.value;
    if (value) held[box.id] = value;
    else delete held[box.id];
    store();
  };
  main.addEventListener("change", changed);
  document.getElementById("book-clear").addEventListener("click", () => {
    held = {};
    show();
    store();
    main.focus();
  });
  show();
  clear.hidden = Object.keys(held).length === 0;
};

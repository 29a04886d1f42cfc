"use strict";
window.scarfwright = { pieces: {} };

// Fills every piece with its data, and keeps ticks and the record on this device. One piece that fails stops no other.
scarfwright.start = () => {
  const data = JSON.parse(document.getElementById("book-data").textContent);
  for (const [key, one] of Object.entries(data)) {
    const root = document.querySelector(`[data-piece="${key}"]`);
    try {
      if (root && scarfwright.pieces[key]) scarfwright.pieces[key](root, one);
    } catch (error) {
      console.error(key, error);
    }
  }
  scarfwright.keep(document.getElementById("main"));
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

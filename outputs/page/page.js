"use strict";
// The page: a job is typed, the server works it out, what comes of it is put in place of what was there.

const KEEP = "scarfwright job", STEPS = 50, PAUSE = 120;
const key = new URLSearchParams(location.search).get("key") || "";
const $ = (id) => document.getElementById(id);
const copy = (value) => JSON.parse(JSON.stringify(value));

// A request to the server. Throws what it refused, or that it has gone.
async function ask(name, body, signal) {
  let answer;
  try {
    answer = await fetch("/" + name, { method: "POST", headers: { "content-type": "application/json", "x-scarfwright-key": key }, body: JSON.stringify(body), signal });
  } catch (error) {
    if (error.name !== "AbortError") page.gone(true);
    throw error;
  }
  page.gone(false);
  if (!answer.ok) throw new Error(await answer.text());
  return answer;
}

const page = {
  job: {}, beside: null, answer: null, other: null, text: "", past: [], ahead: [], last: "", touched: 0, lost: false,

  async start() {
    const begun = await (await ask("begin", {})).json();
    Object.assign(page, { schemas: begun.schemas, measure: begun.measure, order: begun.order });
    page.form = new Form($("fields"), page.edited, begun.measureKey);
    page.files = new Files(ask, () => page.job);
    let kept = null;
    try {
      kept = JSON.parse(sessionStorage.getItem(KEEP));
    } catch {}
    page.job = whole((kept && kept.job) || begun.job || {});
    page.beside = (kept && kept.beside) || null;
    page.build();
    page.buttons();
    page.soon();
    if (page.beside) page.askOther();
  },

  units: () => (page.job.units === "in" ? "in" : "mm"),

  build() {
    page.built = page.units();
    page.form.job = page.job;
    page.form.build(page.schemas[page.built], page.measure);
  },

  // -- editing -------------------------------------------------------------------------------------------------

  // One step of undo for what is typed into one field in one go.
  edited(name) {
    const now = Date.now();
    if (name !== page.last || now - page.touched > 2000) page.step(page.before);
    Object.assign(page, { last: name, touched: now });
    page.changed();
    if (name === "units" && page.units() !== page.built) {
      page.build();
      $("k-units").focus();
    }
  },

  step(before) {
    page.past = [...page.past, before].slice(-STEPS);
    page.ahead = [];
  },

  changed() {
    page.before = JSON.stringify(page.job);
    page.keep();
    page.soon();
    $("undo").setAttribute("aria-disabled", String(!page.past.length));
    $("redo").setAttribute("aria-disabled", String(!page.ahead.length));
  },

  keep() {
    try {
      sessionStorage.setItem(KEEP, JSON.stringify({ job: page.job, beside: page.beside }));
    } catch {}
  },

  // Another job altogether, or this one changed by a button.
  put(job, undoable = true) {
    if (undoable) page.step(page.before);
    page.last = "";
    page.job = whole(job);
    if (page.units() === page.built) page.form.show(page.job);
    else page.build();
    page.changed();
  },

  travel(from, to) {
    if (!from.length) return;
    to.push(page.before);
    page.put(JSON.parse(from.pop()), false);
  },

  apply(way) {
    const job = copy(page.job);
    for (const { path, value } of way.changes) (job[path[0]] ??= {})[path[1]] = value;
    page.put(job);
    $("result").focus();
  },

  // -- asking --------------------------------------------------------------------------------------------------

  soon() {
    clearTimeout(page.timer);
    page.timer = setTimeout(page.work, PAUSE);
  },

  async work() {
    if (page.asking) page.asking.abort();
    const asking = (page.asking = new AbortController());
    const typed = JSON.stringify(page.job);
    try {
      const answer = await (await ask("work", { job: page.job }, asking.signal)).json();
      if (page.asking !== asking) return;
      page.textOf = typed;
      page.show(answer);
      if (!answer.problems.length) await page.look(asking);
    } catch (error) {
      if (error.name !== "AbortError" && !page.lost) page.say(`Not worked out: ${error.message}`);
    }
  },

  // The file is of what is typed now; where nobody is there to write it, of what was answered last, and that is said.
  async save() {
    let text = page.text;
    if (page.textOf !== JSON.stringify(page.job)) {
      try {
        text = (await (await ask("work", { job: page.job })).json()).text;
      } catch {
        page.say("Saved as it was before your last change: the program behind this page has ended.");
      }
    }
    fetchAs(new Blob([text], { type: "application/toml" }), page.fileName());
  },

  async look(asking) {
    const sheets = $("sheets").querySelector("details[open]") !== null;
    const found = await (await ask("look", { job: page.job, sheets }, asking.signal)).json();
    if (page.asking !== asking || found.ticket !== page.answer.ticket) return;
    page.findings(found.findings);
    page.pieces(found, page.order);
    page.sheets(found.sheets);
  },

  async askOther() {
    const asked = page.beside;
    let found = null;
    try {
      found = await (await ask("work", { job: asked })).json();
    } catch {}
    if (page.beside !== asked) return; // meanwhile it was taken away, or another put there
    page.other = found;
    if (page.answer) page.figures(page.answer, null);
  },

  gone(lost) {
    if (page.lost === lost) return;
    page.lost = lost;
    $("gone").hidden = !lost;
    $("gone").textContent = lost ? "The program behind this page has ended. What you typed is still here: save it as a job file, start scarfwright page again, and open it there." : "";
    document.querySelector("main").classList.toggle("stale", lost);
    if (lost) page.again = setInterval(page.work, 3000);
    else clearInterval(page.again);
  },

  // -- showing -------------------------------------------------------------------------------------------------

  say(text) {
    if ($("state").textContent !== text) $("state").textContent = text;
    $("glance").firstChild.textContent = `${text.split(". ")[0].replace(/\.$/, "")}: see what comes of it`;
  },

  show(answer) {
    page.text = answer.text;
    const loose = page.form.problems(answer.problems);
    $("loose").hidden = !loose.length;
    $("loose").replaceChildren(...loose.map((text) => make("li", { text })));
    const title = typeof page.job.title === "string" && page.job.title.trim();
    $("name").textContent = title || "a new job";
    $("result").classList.toggle("stale", answer.problems.length > 0);
    if (answer.problems.length) {
      const below = page.answer ? " What stands below is of the job before that." : "";
      const missing = answer.problems.filter((one) => one.missing).length, wrong = answer.problems.length - missing;
      page.say(wrong ? `${wrong === 1 ? "One entry" : wrong + " entries"} to mend in the form.${below}` : `Still needed: ${missing === 1 ? "one figure" : missing + " figures"}.${below}`);
      return page.files.ticket(null);
    }
    const before = page.answer;
    page.answer = answer;
    page.say(page.verdict(answer));
    page.findings(answer.findings);
    page.figures(answer, before);
    page.pieces(answer, answer.stops ? page.order : []);
    page.files.ticket(answer.stops ? null : answer.ticket);
  },

  verdict(answer) {
    const count = (group) => answer.findings.filter((one) => one.group === group).length;
    const faults = count("Stops the job"), care = count("Needs care");
    const head = faults ? `Not to be cut so: ${faults === 1 ? "one fault stops" : faults + " faults stop"} the job.` : "This can be cut.";
    return head + (care ? ` ${care === 1 ? "One thing needs" : care + " things need"} care.` : "");
  },

  findings(found) {
    const same = JSON.stringify(found);
    if (page.told === same) return;
    page.told = same;
    const groups = new Map();
    for (const one of found) groups.set(one.group, [...(groups.get(one.group) || []), one]);
    $("findings").replaceChildren(
      ...[...groups].map(([group, those]) =>
        make("div", { class: "findings " + group.toLowerCase().replaceAll(" ", "-") }, make("h2", { text: group }), make("ul", {}, ...those.map(page.finding)))
      )
    );
  },

  finding(one) {
    const found = make("li", {}, make("bdi", { text: one.text }));
    const buttons = make("p", { class: "buttons" });
    for (const way of one.ways) {
      const button = make("button", { type: "button", class: "advice", text: way.said[0].toUpperCase() + way.said.slice(1) });
      button.addEventListener("click", () => page.apply(way));
      buttons.append(button);
    }
    if (one.field) {
      const lead = make("button", { type: "button", class: "link lead", text: `Go to ${one.field}`, "data-path": one.path.join(".") });
      lead.addEventListener("click", () => page.form.go(one.path));
      buttons.append(lead);
    }
    found.append(buttons);
    return found;
  },

  figures(answer, before) {
    const was = new Map((before ? before.figures : answer.figures).map((one) => [one.key, one.value]));
    const other = page.other && page.other.figures ? new Map(page.other.figures.map((one) => [one.key, one.value])) : null;
    const row = (one) => {
      const changed = was.get(one.key) !== one.value;
      const cell = make("td", { class: changed ? "changed" : null, "data-key": one.key, text: one.value });
      if (changed) cell.append(make("span", { class: "was", text: was.has(one.key) ? `changed, was ${was.get(one.key)}` : "new" }));
      const cells = [make("th", { scope: "row", text: one.label }), cell];
      if (other) cells.push(make("td", { class: other.get(one.key) === one.value ? "other" : "other differs", text: other.get(one.key) ?? "-" }));
      return make("tr", {}, ...cells);
    };
    const table = (caption, rows) => {
      const found = make("table", {}, make("caption", { text: caption }));
      if (other) found.append(make("thead", {}, make("tr", {}, make("th", { scope: "col", text: "Figure" }), make("th", { scope: "col", text: "this job" }), make("th", { scope: "col", text: "beside" }))));
      found.append(make("tbody", {}, ...rows.map(row)));
      return found;
    };
    const open = $("figures").querySelector("details[open]") !== null;
    const rest = make("details", { open }, make("summary", {}, make("h3", { text: "All other numbers" })), table("Worked out besides", answer.figures.filter((one) => !one.main)));
    const caption = answer.stops ? "Worked out, but not to be cut so" : "To set and to cut by";
    $("figures").replaceChildren(table(caption, answer.figures.filter((one) => one.main)), rest);
    for (const id of ["swap", "alone"]) $(id).hidden = !page.beside;
  },

  // What is not among the new pieces is of the job before: it waits for its turn, or goes if it is not to come.
  pieces(answer, gone) {
    const wanted = new Set(answer.pieces.map((one) => one.key));
    for (const old of [...$("pieces").children]) {
      if (wanted.has(old.dataset.key)) continue;
      if (gone.includes(old.dataset.key) && (answer.stops || !page.answer.pieces.some((one) => one.key === old.dataset.key))) old.remove();
      else if (!page.answer.pieces.some((one) => one.key === old.dataset.key)) old.setAttribute("aria-busy", "true");
    }
    for (const one of answer.pieces) page.piece(one, one.key in answer.data);
    for (const [name, data] of Object.entries(answer.data)) {
      const root = document.querySelector(`[data-piece="${name}"]`);
      try {
        if (root && scarfwright.pieces[name]) scarfwright.pieces[name](root, data);
      } catch (error) {
        console.error(name, error); // one piece that fails stops no other
      }
    }
    if (!answer.stops && !$("sheets").firstChild) page.sheetsFold();
    if (answer.stops) $("sheets").replaceChildren();
  },

  // A piece that has a script is filled by it again and again; of the others the markup is put in place.
  piece(one, alive = false) {
    let fold = [...$("pieces").children].find((child) => child.dataset.key === one.key);
    if (!fold) {
      fold = make("details", { "data-key": one.key, open: ["moving_cut", "first", "sled"].includes(one.key) }, make("summary", {}, make("h2", { text: one.title })), make("section", { "data-piece": one.key, "aria-label": one.title }));
      const rank = (key) => page.order.indexOf(key), after = [...$("pieces").children].find((child) => rank(child.dataset.key) > rank(one.key));
      $("pieces").insertBefore(fold, after || null);
    }
    fold.removeAttribute("aria-busy");
    if (fold.html === one.html || (alive && fold.html)) return;
    fold.html = one.html;
    const section = fold.querySelector("section"), open = [...section.querySelectorAll("details")].map((each) => each.open);
    section.innerHTML = one.html; // the book's markup, every text in it escaped by its templates
    section.querySelectorAll("details").forEach((each, index) => (each.open = open[index] || false));
  },

  sheetsFold() {
    const fold = make("details", {}, make("summary", {}, make("h2", { text: "The whole sheets, as they are printed" })), make("p", { class: "help", text: "Drawn when this is open." }));
    fold.addEventListener("toggle", () => fold.open && page.look(page.asking).catch(() => {}));
    $("sheets").append(fold);
  },

  sheets(found) {
    const fold = $("sheets").querySelector("details");
    if (!fold || !found.length) return;
    for (const old of fold.querySelectorAll("figure")) old.remove();
    for (const one of found) fold.append(make("figure", {}, make("img", { alt: `Sheet: ${one.name}`, src: "data:image/svg+xml," + encodeURIComponent(one.svg) }), make("figcaption", { text: one.name })));
  },

  // -- buttons -------------------------------------------------------------------------------------------------

  buttons() {
    page.before = JSON.stringify(page.job);
    $("undo").addEventListener("click", () => page.travel(page.past, page.ahead));
    $("redo").addEventListener("click", () => page.travel(page.ahead, page.past));
    $("open").addEventListener("click", () => $("chosen").click());
    $("chosen").addEventListener("change", page.opened);
    $("save").addEventListener("click", page.save);
    $("beside").addEventListener("click", () => page.besides(copy(page.job)));
    $("alone").addEventListener("click", () => page.besides(null));
    $("swap").addEventListener("click", () => {
      const other = page.beside;
      page.beside = copy(page.job);
      page.put(other);
      page.askOther();
    });
    $("form").addEventListener("submit", (event) => event.preventDefault());
    document.addEventListener("keydown", (event) => {
      if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z" || event.target.matches("input, select")) return;
      event.preventDefault();
      $(event.shiftKey ? "redo" : "undo").click();
    });
  },

  besides(job) {
    page.beside = job;
    page.other = null;
    page.keep();
    if (job) page.askOther();
    else if (page.answer) page.figures(page.answer, null);
    if (!job) $("beside").focus();
  },

  async opened() {
    const file = $("chosen").files[0];
    if (!file) return;
    $("chosen").value = "";
    try {
      if (file.size > 900000) throw new Error("it is too large for a job file");
      const found = await (await ask("open", { text: await file.text(), name: file.name })).json();
      $("loose").hidden = !found.problems.length;
      $("loose").replaceChildren(...found.problems.map((text) => make("li", { text: `Not opened: ${text}` })));
      if (found.job) page.put(found.job);
    } catch (error) {
      page.say(`${file.name} is not opened: ${error.message}`);
    }
  },

  fileName() {
    const words = (typeof page.job.title === "string" ? page.job.title : "").toLowerCase().match(/[a-z0-9]+/g);
    return (words ? words.join("-").slice(0, 40) : "job") + ".toml";
  },
};

// A job with the tables that hold the needed keys, so that each of them is asked for by itself.
function whole(job) {
  return { ...Object.fromEntries(page.schemas.mm.required.map((key) => [key, {}])), ...job };
}

page.start().catch((error) => page.say(`Not begun: ${error.message}`));

"use strict";
// The form is made from the JSON Schema of the job: every key it has, and none besides. Values are the job's plain
// tables; a key that nobody filled in is not there.

const make = (tag, attributes, ...inside) => {
  const found = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes || {})) {
    if (value === false || value === undefined || value === null) continue;
    if (name === "text") found.textContent = value;
    else found.setAttribute(name, value === true ? "" : value);
  }
  found.append(...inside);
  return found;
};

const idOf = (path) => "k-" + path.join("-");
const at = (job, path) => path.reduce((held, key) => (held === undefined || held === null ? undefined : held[key]), job);

class Form {
  // changed(): the job was edited; sooner or later, while one types
  constructor(root, changed, measureKey) {
    Object.assign(this, { root, changed, measureKey, job: {}, fields: new Map(), lists: new Map() });
  }

  build(schema, pictures) {
    const open = [...this.root.querySelectorAll("details[open]")].map((one) => one.dataset.key);
    Object.assign(this, { schema, fields: new Map(), lists: new Map() });
    this.root.replaceChildren(...this.groups(pictures));
    for (const one of this.root.querySelectorAll("details")) if (open.includes(one.dataset.key)) one.open = true;
    this.show(this.job);
  }

  model(schema) {
    const reference = schema.$ref || (schema.items && schema.items.$ref);
    return reference ? this.schema.$defs[reference.split("/").pop()] : null;
  }

  // The server's own drawings: nothing in them is of a job.
  where(pictures) {
    const found = make("div", { class: "where" });
    found.innerHTML = pictures;
    return found;
  }

  groups(pictures) {
    const tables = Object.entries(this.schema.properties);
    const machines = (this.schema.properties.shop_has || { items: {} }).items.enum || [];
    const needed = [], units = [], plain = [], measured = new Map(), rest = [];
    for (const [key, one] of tables) {
      const model = this.model(one);
      if (!model) (key === "units" ? units : plain).push(this.field([key], one)); // they decide how all else is read
      else if (one.items) rest.push(this.list(key, one, model));
      else {
        const left = [];
        for (const [name, inner] of Object.entries(model.properties)) {
          const field = () => this.field([key, name], inner, (model.required || []).includes(name));
          if ((model.required || []).includes(name)) needed.push(field());
          else if (inner[this.measureKey] && !machines.includes(key)) measured.set(one.title, [...(measured.get(one.title) || []), field()]);
          else left.push(field());
        }
        if (left.length) rest.push(this.fold(key, one.title, model.description, left));
      }
    }
    return [
      make("fieldset", {}, make("legend", {}, make("h2", { text: "The board and the slope" })), ...units, ...needed, ...plain),
      this.fold("measured", "Your saw and clamps: measure these", "What stands there in slanted letters is assumed until you type yours.", [
        this.where(pictures),
        ...[...measured].map(([title, fields]) => make("fieldset", {}, make("legend", { text: title }), ...fields)),
      ]),
      make("h2", { text: "The rest: leave it until you need it" }),
      ...rest,
    ];
  }

  fold(key, title, about, inside) {
    const count = make("span", { class: "mark", hidden: true });
    return make("details", { "data-key": key }, make("summary", {}, make("h3", { text: title }), count), make("p", { class: "help", text: about }), ...inside);
  }

  // -- one key -------------------------------------------------------------------------------------------------

  field(path, schema, required) {
    const id = idOf(path), wrong = make("p", { class: "wrong", id: id + "-wrong", hidden: true });
    const help = make("p", { class: "help", id: id + "-help", text: (schema.description || "").replace(/ Measure yours\.$/, "") });
    const mark = make("span", { class: "mark", text: required ? "needed" : "measure yours" });
    const marked = required || schema[this.measureKey];
    const context = { id, path, schema, described: `${id}-help ${id}-wrong`, set: (value) => this.set(path, value) };
    const control = controlFor(context);
    const title = control.many ? make("legend", { text: schema.title }) : make("label", { for: id, text: schema.title });
    if (marked) title.append(mark);
    const box = make(control.many ? "fieldset" : "div", { class: "field", "data-path": path.join(".") }, title, help, control.element, wrong);
    if (control.many) box.id = id + "-box";
    this.fields.set(path.join("."), {
      show: (value) => {
        control.show(value);
        mark.hidden = !marked || value !== undefined;
      },
      mark,
      marked,
      focus: () => control.focusOn.focus(),
      wrong: (text) => {
        wrong.textContent = text;
        wrong.hidden = !text;
        for (const one of box.querySelectorAll("input, select")) one.toggleAttribute("aria-invalid", false);
        if (text && control.focusOn.matches("input:not([type=checkbox]), select")) control.focusOn.setAttribute("aria-invalid", "true");
      },
    });
    return box;
  }

  set(path, value) {
    let held = this.job;
    for (const key of path.slice(0, -1)) held = held[key] ??= {};
    if (value === undefined) delete held[path.at(-1)];
    else held[path.at(-1)] = value;
    const field = this.fields.get(path.join("."));
    if (field && field.marked) field.mark.hidden = value !== undefined;
    this.changed(path.join("."));
  }

  // -- lists of tables -----------------------------------------------------------------------------------------

  list(key, schema, model) {
    const holder = make("div", {});
    const add = make("button", { type: "button", id: `k-${key}`, text: "Add one" });
    const wrong = make("p", { class: "wrong", hidden: true });
    add.setAttribute("aria-label", `${schema.title}: add one`);
    add.addEventListener("click", () => {
      (this.job[key] ??= []).push({});
      this.changed(key);
      this.items(key);
      const last = holder.lastElementChild;
      last.open = true;
      last.fill();
      last.querySelector("input, select").focus();
    });
    this.lists.set(key, { holder, model, schema });
    this.fields.set(key, {
      show: () => this.items(key),
      focus: () => add.focus(),
      wrong: (text) => {
        wrong.textContent = text;
        wrong.hidden = !text;
      },
    });
    return this.fold(key, schema.title, model.description, [holder, add, wrong]);
  }

  items(key) {
    const { holder, model, schema } = this.lists.get(key);
    const held = Array.isArray(this.job[key]) ? this.job[key] : [];
    const open = [...holder.children].map((one) => one.open);
    for (const name of [...this.fields.keys()]) if (name.startsWith(key + ".")) this.fields.delete(name);
    holder.replaceChildren(
      ...held.map((one, index) => {
        const named = one.name || one.length || "";
        const count = make("span", { class: "mark", hidden: true });
        const found = make("details", { class: "item", "data-key": `${key}.${index}` }, make("summary", {}, make("span", { text: `${schema.title}, number ${index + 1}${named ? ": " + named : ""}` }), count));
        const fill = () => {
          if (found.children.length > 1) return;
          const away = make("button", { type: "button", text: "Take this one away" });
          away.addEventListener("click", () => {
            this.job[key].splice(index, 1);
            if (!this.job[key].length) delete this.job[key];
            this.changed(key);
            this.items(key);
            this.fields.get(key).focus();
          });
          for (const [name, inner] of Object.entries(model.properties)) found.append(this.field([key, index, name], inner, (model.required || []).includes(name)));
          found.append(away);
          for (const name of Object.keys(model.properties)) this.fields.get(`${key}.${index}.${name}`).show(one[name]);
          this.problems(this.shown || []);
        };
        found.fill = fill; // two thousand boards are drawn only where one looks
        found.addEventListener("toggle", () => found.open && fill());
        if (open[index]) {
          found.open = true;
          fill();
        }
        return found;
      })
    );
  }

  // -- the whole -----------------------------------------------------------------------------------------------

  show(job) {
    this.job = job;
    for (const [name, field] of [...this.fields]) if (this.fields.has(name)) field.show(at(job, name.split(".")));
  }

  // Each problem at its field, else among the loose ones, which are given back. A key that is only missing is "needed".
  problems(found) {
    this.shown = found;
    const loose = [], byField = new Map();
    for (const one of found) {
      const path = one.path.map(String);
      if (one.missing && path.length > 1) continue;
      if (this.lists.has(path[0]) && path.length > 1) this.item(path);
      let name = path.join(".");
      while (name && !this.fields.has(name)) name = name.split(".").slice(0, -1).join(".");
      if (!name || (this.schema.properties[path[0]] && path.length > 1 && name === path[0] && !this.lists.has(name))) loose.push(`${path.join(" ")}: ${one.text}`);
      else byField.set(name, (byField.get(name) ? byField.get(name) + " " : "") + one.text);
    }
    for (const [name, field] of this.fields) field.wrong(byField.get(name) || "");
    for (const fold of this.root.querySelectorAll("details")) {
      const count = fold.querySelectorAll(".wrong:not([hidden])").length, mark = fold.querySelector("summary .mark");
      mark.hidden = !count;
      mark.textContent = count === 1 ? "1 to mend" : `${count} to mend`;
    }
    return loose;
  }

  item(path) {
    const found = this.lists.get(path[0]).holder.children[Number(path[1])];
    if (found && found.children.length < 2) found.fill();
    return found;
  }

  // Opens what a key is folded into, and goes there.
  go(path) {
    if (this.lists.has(path[0]) && path.length > 1) this.item(path);
    let name = path.join(".");
    while (name && !this.fields.has(name)) name = name.split(".").slice(0, -1).join(".");
    const field = this.fields.get(name);
    if (!field) return;
    const box = document.getElementById(idOf(name.split("."))) || document.getElementById(idOf(name.split(".")) + "-box");
    for (let one = box; one && one !== this.root; one = one.parentElement) if (one.tagName === "DETAILS") one.open = true;
    field.focus();
    box.scrollIntoView({ block: "center" });
  }
}

// -- what a key is filled in with: { element, show(value), focusOn, many } -------------------------------------------

const typesOf = (schema) => (Array.isArray(schema.type) ? schema.type : schema.type ? [schema.type] : (schema.anyOf || []).flatMap(typesOf));
const fixed = (schema) => schema.type === "array" && schema.minItems === schema.maxItems && schema.minItems > 0;

const typed = (text, schema) => {
  const trimmed = text.trim(), types = typesOf(schema);
  if (!trimmed) return undefined;
  const number = types.includes("string") ? trimmed : trimmed.replace(",", ".");
  if ((types.includes("number") || types.includes("integer")) && /^\d+(\.\d+)?$/.test(number)) return Number(number);
  return types.includes("string") && types.length === 1 ? text : trimmed;
};

const said = (value) => (value === undefined ? "" : Array.isArray(value) ? value.map(said).join(" x ") : value === true ? "yes" : value === false ? "no" : String(value));

const usual = (schema) => {
  if (schema.default !== undefined && schema.default !== "") return said(schema.default);
  return schema.examples ? `such as ${said(schema.examples[0])}` : "";
};

function controlFor(context) {
  const { schema } = context, ways = schema.anyOf || [];
  const choice = ways.find((way) => way.enum), pick = ways.find((way) => way.type === "array" && way.items.enum);
  if (schema.type === "boolean") return tickBox(context);
  if (schema.enum) return selection(context);
  if (choice && pick) return selection(context, choice.enum, pick.items.enum);
  if (schema.type === "array" && schema.items.enum) return tickBoxes(context, schema.items.enum);
  if (fixed(schema)) return several(context, schema, context.set);
  if (schema.type === "array") return rows(context);
  return line(context, ways.find(fixed));
}

function box(context, given) {
  return make("input", { type: "text", id: context.id, "aria-describedby": context.described, placeholder: usual(context.schema), spellcheck: "false", autocapitalize: "off", ...given });
}

// A line of text. `pair`: a list it may be as well, written with an x between.
function line(context, pair) {
  const element = box(context);
  element.addEventListener("input", () => {
    const parts = element.value.split(/\s*[x×]\s*/i);
    if (pair && parts.length === pair.minItems && parts.every((part) => part) && !parts.every((part) => /^[\d/]+$/.test(part))) context.set(parts.map((part) => typed(part, pair.items)));
    else context.set(typed(element.value, context.schema));
  });
  const show = (value) => {
    if (document.activeElement !== element || typed(element.value, context.schema) !== value) element.value = said(value);
  };
  return { element, focusOn: element, show };
}

function tickBox(context) {
  const tick = make("input", { type: "checkbox", id: context.id, "aria-describedby": context.described });
  tick.addEventListener("change", () => context.set(tick.checked === (context.schema.default === true) ? undefined : tick.checked));
  const show = (value) => (tick.checked = value === undefined ? context.schema.default === true : value === true);
  return { element: make("label", { class: "tick" }, tick, make("span", { text: "yes" })), focusOn: tick, show };
}

// One of a few words, or some of others.
function selection(context, words = context.schema.enum, others = null) {
  const element = make("select", { id: context.id, "aria-describedby": context.described });
  const word = (text) => text.replaceAll("_", " ");
  const normal = context.schema.default;
  element.append(make("option", { value: "", text: normal === undefined ? "not told" : `${word(String(normal))} (as usual)` }));
  for (const one of words) if (one !== normal || context.path.at(-1) === "units") element.append(make("option", { value: one, text: word(one) }));
  const ticks = others ? tickBoxes(context, others) : null;
  if (others) element.append(make("option", { value: "\n", text: "these:" }));
  element.addEventListener("change", () => {
    if (ticks) ticks.element.hidden = element.value !== "\n";
    context.set(element.value === "\n" ? [] : element.value || undefined);
  });
  const show = (value) => {
    const listed = others && Array.isArray(value);
    element.value = listed ? "\n" : value === normal && value !== undefined && context.path.at(-1) !== "units" ? "" : (value ?? "");
    if (ticks) {
      ticks.element.hidden = !listed;
      ticks.show(listed ? value : []);
    }
  };
  return { element: ticks ? make("div", {}, element, ticks.element) : element, focusOn: element, show };
}

function tickBoxes(context, words) {
  const ticks = words.map((word) => make("input", { type: "checkbox", value: word, "aria-describedby": context.described }));
  const element = make("div", {}, ...ticks.map((tick) => make("label", { class: "tick" }, tick, make("span", { text: tick.value.replaceAll("_", " ") }))));
  element.addEventListener("change", () => {
    const found = ticks.filter((tick) => tick.checked).map((tick) => tick.value);
    context.set(found.length || context.schema.anyOf ? found : undefined);
  });
  const show = (value) => ticks.forEach((tick) => (tick.checked = (value || []).includes(tick.value)));
  return { element, focusOn: ticks[0], show, many: !context.schema.anyOf };
}

// So many values side by side; what is left open is as usual.
function several(context, schema, set, names = "") {
  const defaults = context.schema.default || [];
  const boxes = Array.from({ length: schema.minItems }, (_, index) => box(context, { id: null, placeholder: said(defaults[index]), "aria-label": `${context.schema.title}${names}, ${index + 1} of ${schema.minItems}` }));
  const element = make("div", { class: "several" }, ...boxes);
  element.addEventListener("input", () => {
    const values = boxes.map((one, index) => typed(one.value, schema.items) ?? defaults[index] ?? "");
    set(boxes.every((one) => !one.value.trim()) ? undefined : values);
  });
  const show = (value) => {
    if (!element.contains(document.activeElement)) boxes.forEach((one, index) => (one.value = said(Array.isArray(value) ? value[index] : undefined)));
  };
  return { element, focusOn: boxes[0], show, many: true };
}

// A list that grows: of values, or of pairs.
function rows(context) {
  const { items, title } = context.schema;
  let held = [];
  const holder = make("div", {}), add = make("button", { type: "button", text: "Add one", "aria-label": `${title}: add one` });
  const filled = () => held.filter((one) => [one].flat().some((value) => value !== "")); // a row nobody wrote in says nothing
  const tell = () => context.set(filled().length ? filled() : undefined);
  const draw = () => {
    holder.replaceChildren(
      ...held.map((value, index) => {
        const set = (changed) => {
          held[index] = changed ?? (fixed(items) ? items.minItems && Array(items.minItems).fill("") : "");
          tell();
        };
        const inner = { ...context, schema: { ...items, title, default: undefined }, set };
        const one = fixed(items) ? several(inner, items, set, ` ${index + 1}`) : line({ ...inner, id: null });
        if (!fixed(items)) one.element.setAttribute("aria-label", `${title}, ${index + 1}`);
        one.show(value === "" ? undefined : value);
        const away = make("button", { type: "button", text: "×", "aria-label": `${title}: take number ${index + 1} away` });
        away.addEventListener("click", () => {
          held.splice(index, 1);
          tell();
          draw();
          add.focus();
        });
        return make("div", { class: "several" }, one.element, away);
      })
    );
  };
  add.addEventListener("click", () => {
    held.push(fixed(items) ? Array(items.minItems).fill("") : "");
    draw();
    holder.lastElementChild.querySelector("input").focus();
    tell();
  });
  const show = (value) => {
    if (holder.contains(document.activeElement) && JSON.stringify(value || []) === JSON.stringify(filled())) return;
    held = Array.isArray(value) ? [...value] : [];
    draw();
  };
  return { element: make("div", {}, holder, add), focusOn: add, show, many: true };
}

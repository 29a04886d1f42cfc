// The form: fields for every figure, what was typed kept on this device, the result beside it.

const kept = {}; // what was typed, where the device keeps nothing

const el = (tag, properties = {}, ...children) => {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) {
    if (name in made && !name.startsWith("aria")) made[name] = value;
    else made.setAttribute(name, value);
  }
  made.append(...children.filter((child) => child !== null));
  return made;
};

scarfwright.pieces.tune = (root, data) => {
  const { texts, plan, fields } = data;
  const reader = lengths(data.lengths, data.units);
  const { tune } = tuning(data.constants, plan);
  const say = saying(data.say, data.rows, data.nobody, plan, reader);
  const place = `scarfwright tune ${data.key}`;
  let joints = recall();
  let removed = null;

  function recall() {
    try {
      kept[place] = JSON.parse(localStorage.getItem(place)) ?? kept[place];
    } catch {}
    const isJoint = (one) => one && typeof one === "object" && Object.values(one).every((text) => typeof text === "string");
    const found = kept[place];
    return Array.isArray(found) && found.length && found.every(isJoint) ? found : [{}];
  }

  function keep() {
    kept[place] = joints;
    try {
      localStorage.setItem(place, JSON.stringify(joints));
    } catch {}
  }

  // ---- fields

  const nameOf = (board, field, part) => `${board}-${field.key}-${part.name}`;
  const idOf = (number, name) => `tune-${number}-${name}`;

  function fieldOf(number, board, field) {
    const id = idOf(number, `${board}-${field.key}`);
    const several = field.parts.length > 1;
    const title = [el("b", {}, field.letter), ` ${field.label}`];
    const parts = field.parts.map((part) => partOf(number, nameOf(board, field, part), part, several ? [part.label] : title, `${id}-help`));
    const help = el("small", { id: `${id}-help` }, field.help);
    const problems = field.parts.map((part) => el("p", { id: `${idOf(number, nameOf(board, field, part))}-problem`, className: "problem", hidden: true }));
    if (!several) return el("div", { className: "field" }, ...parts, help, ...problems);
    return el("fieldset", { className: "field" }, el("legend", {}, ...title), help, el("div", { className: "parts" }, ...parts), ...problems);
  }

  function partOf(number, name, part, label, help) {
    const id = idOf(number, name);
    const value = joints[number - 1][name] ?? part.value ?? "";
    const about = { id, "aria-describedby": `${help} ${id}-problem` };
    const input = part.choices
      ? el("select", about, ...part.choices.map(([choice, text]) => el("option", { value: choice, selected: choice === value }, text)))
      : el("input", { ...about, value, autocomplete: "off", spellcheck: false, maxLength: 100 });
    const heard = (typing) => () => {
      joints[number - 1][name] = input.value;
      keep();
      work(typing);
    };
    input.addEventListener("input", heard(id));
    input.addEventListener("change", heard(null));
    return el("div", {}, el("label", { htmlFor: id }, ...label), input);
  }

  function jointOf(number) {
    const boards = [1, 2].map((board) =>
      el("details", { open: board === 1 || Object.entries(joints[number - 1]).some(([name, text]) => name.startsWith("2-") && text) },
        el("summary", {}, fill(texts.board, { board })), el("div", { className: "fields" }, ...fields.board.map((field) => fieldOf(number, board, field)))));
    const pair = el("details", { open: true }, el("summary", {}, texts.pair), el("div", { className: "fields" }, ...fields.pair.map((field) => fieldOf(number, 0, field))));
    const remove = el("button", { type: "button" }, fill(joints.length > 1 ? texts.remove : texts.clear, { number }));
    remove.addEventListener("click", () => {
      removed = { at: number - 1, joint: joints[number - 1] };
      joints.splice(removed.at, 1);
      if (!joints.length) joints.push({});
      lay("tune-back");
    });
    return el("fieldset", { id: `tune-${number}`, className: "joint" },
      el("legend", {}, fill(texts.joint, { number })), ...boards, pair, remove);
  }

  // ---- from what is typed to tables as in joints.toml, each length {mm, text}

  function tableOf(joint, number, typing, problems) {
    const table = {};
    const add = (key, value) => (table[key] ??= []).push(value);
    const fails = (name, text) => problems.push({ id: idOf(number, name), text });
    const belongs = (key, length, at) => {
      const [low, high] = plan.spans[key] ?? [0, Infinity];
      if (at && length.mm >= plan.full)
        return [fill(texts.no_mark, { read: reader.fine(length.mm), at: at.text }), fill(texts.on_taper, { full: reader.show(plan.thickness) })];
      if (at || (length.mm >= low && length.mm <= high)) return null;
      return [reader.show(length.mm, 2), fill(texts.span, { low: reader.show(low), high: reader.show(high) })];
    };

    for (const [board, list] of [[1, fields.board], [2, fields.board], [0, fields.pair]]) {
      for (const field of list) {
        const text = Object.fromEntries(field.parts.map((part) => [part.name, (joint[nameOf(board, field, part)] ?? part.value ?? "").trim()]));
        const name = (part) => `${board}-${field.key}-${part}`;
        const readAt = (part, at) => {
          if (!text[part]) return undefined;
          try {
            const length = reader.parse(text[part]);
            const wrong = belongs(field.table, length, at);
            if (!wrong) return length;
            fails(name(part), fill(texts.found, { found: wrong[0], expected: wrong[1] }));
          } catch (error) {
            if (!(error instanceof reader.Refused)) throw error;
            fails(name(part), `${error.message[0].toUpperCase()}${error.message.slice(1)}`);
          }
        };
        const alone = (there, missing) => {
          if (text[there] && !text[missing]) fails(name(missing), texts.missing);
        };
        const piece = board || undefined;
        if (field.table === "thickness_at") {
          const given = ["top", "thickness", "bottom"].filter((part) => text[part]);
          if (!given.length) continue;
          alone(given[0], "at");
          alone("top", "bottom");
          alone("bottom", "top");
          const at = readAt("at");
          const [top, thickness, bottom] = ["top", "thickness", "bottom"].map((part) => at && readAt(part, at));
          if (thickness) add(field.table, { at, thickness, piece });
          if (top && bottom) add(field.table, { at, top, bottom, piece });
        } else if (field.table === "twist") {
          if (!text.difference) continue;
          alone("difference", "length");
          const [difference, long] = [readAt("difference"), readAt("length")];
          if (!difference || !long) continue;
          if (difference.mm > long.mm * Math.SQRT1_2 || !long.mm) fails(name("difference"), fill(texts.found, { found: difference.text, expected: texts.sticks }));
          table.twist = [difference, long, ...(text.hand ? [text.hand] : [])];
        } else {
          const value = readAt("value");
          if (!value) continue;
          if (board) add(field.table, { value, ...(text.nearer && { nearer: text.nearer }), piece });
          else table[field.table] = value;
        }
      }
    }
    return table;
  }

  const inMm = (value) => {
    if (Array.isArray(value)) return value.map(inMm);
    if (typeof value !== "object") return value;
    return value.mm ?? Object.fromEntries(Object.entries(value).map(([key, one]) => [key, inMm(one)]));
  };

  const toml = (value) => {
    if (Array.isArray(value)) return `[${value.map(toml).join(", ")}]`;
    if (value.text) return `"${value.text}"`;
    if (typeof value !== "object") return JSON.stringify(value);
    return `{ ${Object.entries(value).filter(([, one]) => one !== undefined).map(([key, one]) => `${key} = ${toml(one)}`).join(", ")} }`;
  };

  // ---- the result

  const status = el("p", { id: "tune-status", role: "status" });
  const result = el("div", { id: "tune-result" });
  const file = el("pre", { id: "tune-file", tabIndex: 0 });
  const form = el("div", { id: "tune-joints" });

  // typing: the id of the field in which somebody is still typing; what can't be read there yet is no problem
  function work(typing) {
    const problems = [];
    const tables = joints.map((joint, at) => tableOf(joint, at + 1, typing, problems));
    for (const hint of root.querySelectorAll(".problem")) {
      const id = hint.id.replace(/-problem$/, "");
      const found = id === typing ? undefined : problems.find((one) => one.id === id);
      hint.textContent = found?.text ?? "";
      hint.hidden = !found;
      const input = document.getElementById(id);
      if (found) input.setAttribute("aria-invalid", "true");
      else input.removeAttribute("aria-invalid");
    }
    file.textContent = tables.map((table) => ["[[test_joint]]", ...Object.entries(table).map(([key, value]) => `${key} = ${toml(value)}`), ""].join("\n")).join("\n");
    const others = problems.filter(({ id }) => id !== typing);
    result.replaceChildren();
    let said = others.length ? fill(texts.problems, { count: others.length }) : texts.empty;
    if (!others.length && tables.some((table) => Object.keys(table).length)) {
      const found = tune(tables.map((table, at) => ({ number: at + 1, ...inMm(table) })));
      said = show(found, say(found));
    }
    if (status.textContent !== said) status.textContent = said;
  }

  function show(found, words) {
    const para = (text) => el("p", {}, text);
    const isStep = (_, at) => !found.corrections[at].instead_of;
    const steps = words.corrections.filter(isStep);
    result.append(
      el("dl", {}, ...words.setUp.flatMap(([name, figure]) => [el("dt", {}, name), el("dd", {}, figure)])),
      ...[words.expected].filter(Boolean).map(para),
      ...words.contradictions.map(para));
    if (steps.length) {
      const others = words.corrections.filter((_, at) => !isStep(_, at));
      result.append(el("ol", {}, ...steps.map((text) => el("li", {}, text))), ...others.map(para), el("p", { className: "defer" }, data.say.defer));
    }
    result.append(...words.untold.map(para));
    if (words.contradictions.length) return texts.contradicted;
    if (steps.length) return fill(texts.to_do, { count: steps.length });
    return words.nothing ? data.say.nothing : texts.more;
  }

  // ---- laid out

  function button(text, act, id) {
    const made = el("button", { type: "button", ...(id && { id }) }, text);
    made.addEventListener("click", act);
    return made;
  }

  async function copy() {
    try {
      await navigator.clipboard.writeText(file.textContent);
      copied.textContent = texts.copied;
    } catch {
      getSelection().selectAllChildren(file);
      copied.textContent = texts.selected;
    }
  }

  function lay(focus) {
    keep();
    const putBack = () => {
      if (joints.length === 1 && !Object.values(joints[0]).some(Boolean)) joints.pop();
      joints.splice(removed.at, 0, removed.joint);
      removed = null;
      lay("tune-add");
    };
    const addOne = () => {
      joints.push({});
      lay(`tune-${joints.length}-1-board_thickness-value`);
    };
    const back = removed && button(texts.back, putBack, "tune-back");
    const more = joints.length < data.most_joints ? button(texts.add, addOne, "tune-add") : null;
    form.replaceChildren(...joints.map((_, at) => jointOf(at + 1)), el("p", {}, ...[more, back].filter(Boolean)));
    work(null);
    if (focus) document.getElementById(focus)?.focus();
  }

  const copied = el("span", { role: "status" });
  root.querySelector("#tune-form").replaceChildren(
    form,
    el("div", { className: "said" }, el("h3", {}, texts.result), status, result),
    el("details", {}, el("summary", {}, texts.file), el("p", {}, texts.save), file, button(texts.copy, copy), " ", copied));
  lay();
};

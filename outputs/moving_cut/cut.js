// The moving cut: slider, buttons and sentence; plan and side view; the picture in 3D (WebGL 2). All words and numbers
// come as data; lengths are mm, x away from the operator, y from the fence's face towards the blade, z up.
(() => {
  "use strict";
  if (typeof scarfwright === "undefined") globalThis.scarfwright = { pieces: {} };

  // One colour a triangle, worked out at its corners: sawn wood and steel are flat, and software draws it fast enough.
  const VERTEX = `in vec3 place, out_of; in vec2 kind;
    uniform mat4 eye; uniform float travel, free, angle, apart, side, nearer; uniform vec4 hinge, colours[16];
    out vec3 cut; flat out vec3 shade; flat out int role, upward;
    void main() {
      int goes = int(kind.y);
      role = int(kind.x); cut = place;
      if (goes > 0) cut.x += goes == 2 ? min(travel, free) : travel;  // where it was when the blade went by
      vec3 at = cut, n = out_of;
      if (goes == 2 && angle > 0.0) {  // over its lower outer edge, to the free side
        vec2 away = hinge.zw; vec3 from = at - vec3(hinge.x + free, hinge.y, 0.0);
        float far = dot(from.xy, away), flat_ = dot(n.xy, away), c = cos(angle), s = sin(angle);
        at += vec3(away * (far * c + from.z * s - far + apart), from.z * c - far * s - from.z);
        n += vec3(away * (flat_ * c + n.z * s - flat_), n.z * c - flat_ * s - n.z);
      }
      float light = 0.62 + 0.26 * n.z + 0.2 * dot(n, normalize(vec3(-0.6, 0.75 * side, 0.3)));
      shade = colours[role].rgb * light; upward = out_of.z > 0.9 ? 1 : 0;
      gl_Position = colours[role].a == 0.0 ? vec4(2.0, 2.0, 2.0, 1.0) : eye * vec4(at, 1.0);
      if (PASS == EDGE) gl_Position.z -= nearer / max(gl_Position.w, 1.0);  // before the faces it belongs to
    }`;
  // How a fragment is drawn: PLAIN; BOARD, with sawn faces and the hatched part of the sled; KERF, where the blade has
  // not been; EDGE. WORK and the like are the numbers of roles, put in below.
  const PLAIN_EDGED = ["hand_line", "slot"];  // thin: dark edges would be all that is seen of them
  const REST = 150;  // nothing has moved for so long: time for smooth edges [ms]
  const PROUD = 1.5;  // edges are drawn so much nearer to the eye [mm]
  const PASSES = ["BOARD", "KERF", "PLAIN", "EDGE"];
  const FRAGMENT = `precision highp float;
    in vec3 cut; flat in vec3 shade; flat in int role, upward;
    uniform float near, kerf, radius, depth, height, side, travel, hand;
    out vec4 seen;
    bool passed() {  // the blade's front has been here: all that is further on than it, at this height
      float z = cut.z + depth;
      return cut.z < height && (cut.x > 0.0 || cut.x * cut.x + z * z < radius * radius);
    }
    bool plane() { float y = side * cut.y - near; return abs(y) < 0.12 || abs(y - kerf) < 0.12; }
    void main() {
      seen = vec4(shade, 1.0);
      if (PASS == BOARD) {
        if (role == SLED) {
          float x = cut.x - travel;
          if (upward == 1 && x > -hand && fract((x + side * cut.y) / 22.0) < 0.14) seen.rgb = mix(shade, vec3(0.6, 0.14, 0.1), 0.6);
        } else if (upward == 0 && plane() && passed()) seen.rgb = mix(shade, vec3(0.92, 0.8, 0.62), 0.55);
      }
      if (PASS == KERF && passed()) discard;
      if (PASS == EDGE) {
        if (role == KERF_ && passed() || (role == WORK || role == KERF_ || role == OFFCUT) && plane() && !passed()) discard;
        seen = vec4(0.06, 0.07, 0.08, 0.6);
      }
    }`;

  // -- a length as people say it ----------------------------------------------------------------------------
  function length(mm, units) {
    if (units === "mm") return `${Number(mm.toFixed(1))} mm`;
    let over = Math.round(mm / 25.4 * 64), under = 64;
    const whole = Math.floor(over / 64);
    over -= whole * 64;
    while (over > 0 && over % 2 === 0) { over /= 2; under /= 2; }
    return `${[whole || over === 0 ? whole : "", over ? `${over}/${under}` : ""].filter((t) => t !== "").join(" ")} in`;
  }

  // -- 4 x 4 matrices, column by column ---------------------------------------------------------------------
  const minus = (a, b) => a.map((v, i) => v - b[i]);
  const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
  const unit = (a) => a.map((v) => v / Math.hypot(...a));
  function looking(view, aspect) {
    const turn = view.turn * Math.PI / 180, tilt = view.tilt * Math.PI / 180, half = Math.tan(view.lens * Math.PI / 360);
    const away = Math.max(view.tall, view.wide / aspect) / 2 / half;
    const back = [Math.cos(tilt) * Math.cos(turn), Math.cos(tilt) * Math.sin(turn), Math.sin(tilt)];
    const stand = view.at.map((v, i) => v + away * back[i]);
    const right = unit(cross([0, 0, 1], back)), up = cross(back, right);
    const first = Math.max(away / 50, 10), last = away + 6000, deep = 1 / (first - last);
    const rows = [right, up, back].map((axis) => [...axis, -dot(axis, stand)]);
    const scale = [1 / half / aspect, 1 / half, (first + last) * deep];
    const eye = [0, 1, 2, 3].flatMap((i) => [
      scale[0] * rows[0][i], scale[1] * rows[1][i],
      scale[2] * rows[2][i] + (i === 3 ? 2 * first * last * deep : 0), -rows[2][i]]);
    return { eye, nearer: -2 * first * last * deep * PROUD };
  }

  // -- triangles pass by pass, what is nearest first; and the edges where two of them meet at an angle -----------
  const ORDER = ["offcut", "work", "sled", "kerf", "clamp", "next", "hand_line", "riving_knife", "blade", "stop_block",
    "fence", "table", "slot"];
  function corners(data) {
    const found = PASSES.map(() => []), goes = ["saw", "sled", "offcut"];
    for (const body of [...data.bodies].sort((a, b) => ORDER.indexOf(a.role) - ORDER.indexOf(b.role))) {
      const role = ORDER.indexOf(body.role), kind = [role, goes.indexOf(body.goes_with)], sides = new Map();
      const corner = (i) => body.corners.slice(3 * i, 3 * i + 3).map((v) => v / data.units_a_mm);
      for (let t = 0; t < body.triangles.length; t += 3) {
        const at = body.triangles.slice(t, t + 3), [a, b, c] = at.map(corner);
        const square = cross(minus(b, a), minus(c, a));
        if (Math.hypot(...square) < 1e-6) continue;
        const here = unit(square);
        for (const p of [a, b, c]) found[role < 3 ? 0 : role < 4 ? 1 : 2].push(...p, ...here, ...kind);
        for (let i = 0; i < 3; i++) {
          const ends = [at[i], at[(i + 1) % 3]], key = `${Math.min(...ends)} ${Math.max(...ends)}`, other = sides.get(key);
          if (other && dot(other, here) < 0.8 && !PLAIN_EDGED.includes(body.role)) {  // in short lengths: one that runs past the eye would not be drawn
            const [from, to] = ends.map(corner), along = minus(to, from), count = Math.ceil(Math.hypot(...along) / 100);
            for (let j = 0; j < count; j++) for (const share of [j / count, (j + 1) / count])
              found[3].push(...from.map((v, axis) => v + share * along[axis]), ...here, ...kind);
          }
          sides.set(key, here);
        }
      }
    }
    return found.map((values) => new Float32Array(values));
  }

  // -- the picture ------------------------------------------------------------------------------------------
  function picture(canvas, data) {
    const gl = canvas.getContext("webgl2", { antialias: false });
    if (!gl) return null;
    let smooth = null;  // where the picture at rest is drawn with smooth edges: software takes twice as long for it
    const found = corners(data), blade = data.blade, fall = data.fall || { at: [0, 0], out: [0, 1], by_mm: 0 };
    const fixed = { near: blade.near_mm, kerf: blade.kerf_mm, radius: blade.radius_mm, depth: blade.depth_mm,
      height: blade.height_mm, side: data.side, hand: data.hand_line_mm, apart: fall.by_mm,
      free: data.free_mm ?? data.last_mm };
    let passes = [];
    function pass(name, values) {
      const program = gl.createProgram(), place = {}, array = gl.createVertexArray(), store = gl.createBuffer();
      const numbers = { ...Object.fromEntries(PASSES.map((one, i) => [one, i])), PASS: PASSES.indexOf(name),
        WORK: ORDER.indexOf("work"), KERF_: ORDER.indexOf("kerf"), OFFCUT: ORDER.indexOf("offcut"), SLED: ORDER.indexOf("sled") };
      const defines = Object.entries(numbers).map(([key, value]) => `#define ${key} ${value}\n`).join("");
      for (const [kind, text] of [[gl.VERTEX_SHADER, VERTEX], [gl.FRAGMENT_SHADER, FRAGMENT]]) {
        const shader = gl.createShader(kind);
        gl.shaderSource(shader, `#version 300 es\n${defines}${text}`); gl.compileShader(shader); gl.attachShader(program, shader); gl.deleteShader(shader);
      }
      ["place", "out_of", "kind"].forEach((input, i) => gl.bindAttribLocation(program, i, input));
      gl.linkProgram(program); gl.useProgram(program);
      gl.bindVertexArray(array); gl.bindBuffer(gl.ARRAY_BUFFER, store);
      gl.bufferData(gl.ARRAY_BUFFER, values, gl.STATIC_DRAW);
      [[3, 0], [3, 12], [2, 24]].forEach(([size, from], i) => {
        gl.enableVertexAttribArray(i); gl.vertexAttribPointer(i, size, gl.FLOAT, false, 32, from);
      });
      for (const one of [...Object.keys(fixed), "eye", "nearer", "travel", "angle", "hinge", "colours"])
        place[one] = gl.getUniformLocation(program, one);
      for (const [one, value] of Object.entries(fixed)) gl.uniform1f(place[one], value);
      gl.uniform4f(place.hinge, ...fall.at, ...fall.out);
      return { program, place, array, store, count: values.length / 8, mode: name === "EDGE" ? gl.LINES : gl.TRIANGLES };
    }
    function build() {
      smooth = null;
      passes = PASSES.map((name, i) => pass(name, found[i]));
      gl.enable(gl.DEPTH_TEST); gl.enable(gl.CULL_FACE);
      gl.blendFunc(gl.ONE, gl.ONE_MINUS_SRC_ALPHA);
      return passes.every(({ program }) => gl.getProgramParameter(program, gl.LINK_STATUS));
    }
    const light = (hex) => [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255);
    function colour(role, travel) {
      if (role === "stop_block" && travel > data.block_mm + data.tolerance_mm) return [0, 0, 0, 0];
      const now = data.free_mm === null || travel < data.free_mm - data.tolerance_mm;
      if (role === "offcut" && now) return [...light(data.colours.board), 1];
      const met = data.limit_mm !== null && travel >= data.limit_mm - data.tolerance_mm;
      if (role === "next" && met) return [...light(data.colours.in_the_way), 1];
      return [...light(data.bodies.find((body) => body.role === role)?.colour || data.colours.board), 1];
    }
    function smoothed() {
      const { width, height } = canvas;
      if (smooth && smooth.width === width && smooth.height === height) return smooth.frame;
      forget();
      const frame = gl.createFramebuffer(), stores = [[gl.RGBA8, gl.COLOR_ATTACHMENT0], [gl.DEPTH_COMPONENT24, gl.DEPTH_ATTACHMENT]];
      gl.bindFramebuffer(gl.FRAMEBUFFER, frame);
      smooth = { frame, width, height, stores: stores.map(([format, place]) => {
        const store = gl.createRenderbuffer();
        gl.bindRenderbuffer(gl.RENDERBUFFER, store);
        gl.renderbufferStorageMultisample(gl.RENDERBUFFER, Math.min(4, gl.getParameter(gl.MAX_SAMPLES)), format, width, height);
        gl.framebufferRenderbuffer(gl.FRAMEBUFFER, place, gl.RENDERBUFFER, store);
        return store;
      }) };
      return frame;
    }
    function forget() {
      smooth?.stores.forEach((store) => gl.deleteRenderbuffer(store));
      if (smooth) gl.deleteFramebuffer(smooth.frame);
      smooth = null;
    }
    function draw(travel, view, atRest) {
      if (gl.isContextLost()) return;
      const { width, height } = canvas;
      gl.bindFramebuffer(gl.FRAMEBUFFER, atRest ? smoothed() : null);
      const { eye, nearer } = looking(view, width / height);
      const past = data.free_mm === null ? -1 : travel - data.free_mm + data.tolerance_mm;
      const tints = ORDER.flatMap((role) => colour(role, travel));
      gl.viewport(0, 0, width, height);
      gl.clearColor(0, 0, 0, 0); gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
      for (const { program, place, array, count, mode } of passes) {
        gl.useProgram(program); gl.bindVertexArray(array);
        gl.uniformMatrix4fv(place.eye, false, eye);
        gl.uniform1f(place.nearer, nearer); gl.uniform1f(place.travel, travel);
        gl.uniform1f(place.angle, past < 0 ? 0 : Math.PI / 2 * Math.min(1, 0.35 + past / 10));
        gl.uniform4fv(place.colours, tints);
        (mode === gl.LINES ? gl.enable : gl.disable).call(gl, gl.BLEND);
        gl.drawArrays(mode, 0, count);
      }
      if (!atRest) return;
      gl.bindFramebuffer(gl.DRAW_FRAMEBUFFER, null);
      gl.blitFramebuffer(0, 0, width, height, 0, 0, width, height, gl.COLOR_BUFFER_BIT, gl.NEAREST);
    }
    function drop() {
      forget();
      for (const { program, array, store } of passes) {
        gl.deleteProgram(program); gl.deleteVertexArray(array); gl.deleteBuffer(store);
      }
    }
    return build() ? { draw, build, drop } : null;
  }

  // -- slider, buttons, sentence, plan and side view ----------------------------------------------------------
  const live = new WeakMap();
  function show(root, data) {
    live.get(root)?.();
    const over = new AbortController(), { signal } = over, find = (what) => root.querySelector(what);
    const canvas = find("canvas"), slider = find("input"), steady = matchMedia("(prefers-reduced-motion: reduce)");
    find(".still").innerHTML = data.moving;
    find(".flat").innerHTML = data.flat.plan + data.flat.side;
    const uses = [...root.querySelectorAll(".flat use")].map((use) => ({ use, name: use.getAttribute("href") }));
    let view = { ...data.views[0] }, travel = data.start_mm, asked = 0, gliding = 0, resting = 0;
    const three = picture(canvas, data);
    canvas.hidden = !three;
    find(".views").hidden = !three;
    find(".no-3d").hidden = !!three;
    find(".live").hidden = false;
    root.setAttribute("data-live", "");

    const soon = () => {
      clearTimeout(resting);
      asked ||= requestAnimationFrame(() => {
        asked = 0;
        three?.draw(travel, view, false);
        resting = setTimeout(() => three?.draw(travel, view, true), REST);
      });
    };
    const sentence = (at) => data.sentences.findLast((s) => s.from_mm - data.tolerance_mm <= at) || data.sentences[0];
    function move(to) {
      travel = Math.min(Math.max(to, data.start_mm), data.last_mm);
      const said = sentence(travel), seen = find(".seen"), past = travel < 0 ? data.words.short : data.words.past;
      const at = `${length(Math.abs(travel), data.units)} ${past}`;
      slider.value = travel;
      slider.setAttribute("aria-valuetext", `${at}. ${said.text}`);
      find("output").textContent = at;
      seen.textContent = said.text;
      seen.setAttribute("data-level", said.level);
      const fallen = data.free_mm !== null && travel >= data.free_mm - data.tolerance_mm;
      for (const { use, name } of uses) {
        const offcut = name.endsWith("-offcut");
        if (/-(sled|kerf|taper|offcut)$/.test(name))
          use.setAttribute("transform", `translate(${data.sense * (offcut && fallen ? data.free_mm : travel)},0)`);
        if (offcut) use.setAttribute("href", fallen ? name.replace("offcut", "fallen") : name);
        if (name.endsWith("-block"))
          use.setAttribute("display", travel > data.block_mm + data.tolerance_mm ? "none" : "inline");
      }
      for (const button of find(".moments").children)
        button.setAttribute("aria-pressed", Math.abs(button.value - travel) <= data.tolerance_mm);
      soon();
    }
    function glide(to) {  // to a moment, in half a second; at once for who wants it steady
      cancelAnimationFrame(gliding);
      if (steady.matches) return move(to);
      const from = travel, began = performance.now();
      const step = (now) => {
        const share = Math.min((now - began) / 500, 1);
        move(share < 1 ? from + (to - from) * share * share * (3 - 2 * share) : to);
        if (share < 1) gliding = requestAnimationFrame(step);
      };
      gliding = requestAnimationFrame(step);
    }
    function look(named) {
      view = { ...named };
      for (const button of find(".views").children) button.setAttribute("aria-pressed", button.value === named.name);
      soon();
    }
    function button(text, value, act) {
      const made = document.createElement("button");
      Object.assign(made, { type: "button", textContent: text, value });
      made.addEventListener("click", act, { signal });
      return made;
    }
    find(".views").replaceChildren(...data.views.map((v) => button(v.label, v.name, () => look(v))));
    find(".moments").replaceChildren(...data.moments.map((m) => button(m.label, m.travel_mm, () => glide(m.travel_mm))));
    Object.assign(slider, { min: data.start_mm, max: data.last_mm });

    const on = (what, name, act) => what.addEventListener(name, act, { signal });
    on(slider, "input", () => { cancelAnimationFrame(gliding); move(Number(slider.value)); });
    on(slider, "keydown", (event) => {
      const mark = data.units === "mm" ? 1 : 25.4 / 16;
      const by = { ArrowRight: mark, ArrowUp: mark, ArrowLeft: -mark, ArrowDown: -mark, PageUp: 10 * mark,
        PageDown: -10 * mark, Home: -Infinity, End: Infinity }[event.key];
      if (by === undefined) return;
      event.preventDefault();
      cancelAnimationFrame(gliding);
      move(travel + by);
    });
    const turn = (dx, dy) => {
      view.turn -= dx;
      view.tilt = Math.min(Math.max(view.tilt + dy, -5), 89.9);
      for (const one of find(".views").children) one.setAttribute("aria-pressed", "false");
      soon();
    };
    on(canvas, "pointerdown", (event) => canvas.setPointerCapture(event.pointerId));
    on(canvas, "pointermove", (event) => {
      if (canvas.hasPointerCapture(event.pointerId)) turn(event.movementX / 3, event.movementY / 3);
    });
    on(canvas, "keydown", (event) => {
      const by = { ArrowLeft: [8, 0], ArrowRight: [-8, 0] }[event.key];
      if (by) { event.preventDefault(); turn(...by); }
    });
    on(canvas, "webglcontextlost", (event) => event.preventDefault());
    on(canvas, "webglcontextrestored", () => { three.build(); soon(); });
    const sized = new ResizeObserver(() => {
      const fine = Math.min(devicePixelRatio || 1, 2);
      Object.assign(canvas, { width: Math.max(1, Math.round(canvas.clientWidth * fine)),
        height: Math.max(1, Math.round(canvas.clientHeight * fine)) });
      soon();
    });
    sized.observe(canvas);
    live.set(root, () => {
      over.abort(); sized.disconnect(); three?.drop();
      cancelAnimationFrame(asked); cancelAnimationFrame(gliding); clearTimeout(resting);
    });
    look(data.views[0]);
    move(data.start_mm);
  }
  scarfwright.pieces.moving_cut = show;
})();

// The moving cut: slider, buttons and sentence; plan and side view; the picture in 3D (WebGL 2). All words and numbers
// come as data; lengths are mm, x away from the operator, y from the fence's face towards the blade, z up.
(() => {
  "use strict";
  if (typeof scarfwright === "undefined") globalThis.scarfwright = { pieces: {} };

  const VERTEX = `#version 300 es
    in vec3 place; in vec2 kind;
    uniform mat4 eye; uniform float travel, free, angle, side; uniform vec4 hinge; uniform float apart;
    uniform vec4 colours[16];
    out vec3 at, cut; out vec4 colour; flat out int role, goes;
    void main() {
      role = int(kind.x); goes = int(kind.y); colour = colours[role];
      at = place;
      if (goes > 0) at.x += goes == 2 ? min(travel, free) : travel;
      cut = at;  // where it was when the blade went by
      if (goes == 2 && angle > 0.0) {  // over its lower outer edge, to the free side
        vec2 out_ = hinge.zw; vec3 from = at - vec3(hinge.x + free, hinge.y, 0.0);
        float far = dot(from.xy, out_), high = from.z, c = cos(angle), s = sin(angle);
        at += vec3(out_ * (far * c + high * s - far + apart), high * c - far * s - high);
      }
      gl_Position = eye * vec4(at, 1.0);
      if (colour.a == 0.0) gl_Position = vec4(2.0, 2.0, 2.0, 1.0);
    }`;
  // KERF and the like are the roles' numbers, put in below
  const FRAGMENT = `#version 300 es
    precision highp float;
    in vec3 at, cut; in vec4 colour; flat in int role, goes;
    uniform vec3 stand; uniform float near, kerf, radius, depth, height, side, travel, hand; uniform bool lines;
    out vec4 seen;
    bool passed() {  // the blade's front has been here: all that is further on than it, at this height
      float z = cut.z + depth;
      return cut.z < height && cut.x > -sqrt(max(0.0, radius * radius - z * z));
    }
    void main() {
      float y = side * cut.y;
      bool board = role == WORK || role == KERF || role == OFFCUT;
      bool face = board && (abs(y - near) < 0.06 || abs(y - near - kerf) < 0.06);
      if (role == KERF && passed()) discard;
      if (lines) {
        if (face && !passed()) discard;
        seen = vec4(0.1, 0.12, 0.14, 1.0) * 0.6; seen.a = 0.6; return;
      }
      vec3 n = normalize(cross(dFdx(at), dFdy(at)));
      if (dot(n, stand - at) < 0.0) n = -n;
      vec3 c = colour.rgb;
      if (face && abs(n.z) < 0.99) c = mix(c, vec3(1.0, 0.9, 0.72), 0.55);
      if (role == SLED && n.z > 0.9 && at.x - travel > -hand && fract((at.x - travel + y) / 22.0) < 0.14)
        c = mix(c, vec3(0.68, 0.18, 0.13), 0.6);
      float light = 0.62 + 0.26 * n.z + 0.2 * dot(n, normalize(vec3(-0.6, 0.75 * side, 0.3)));
      seen = vec4(c * light, 1.0);
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
    return { eye, stand };
  }

  // -- triangles, and the edges where two of them meet at an angle -------------------------------------------
  function buffers(data, roles) {
    const solid = [], edges = [], goes = ["saw", "sled", "offcut"];
    for (const body of data.bodies) {
      const kind = [roles.indexOf(body.role), goes.indexOf(body.goes_with)], sides = new Map();
      const corner = (i) => body.corners.slice(3 * i, 3 * i + 3).map((v) => v / data.units_a_mm);
      for (let t = 0; t < body.triangles.length; t += 3) {
        const at = body.triangles.slice(t, t + 3), [a, b, c] = at.map(corner);
        const square = cross(minus(b, a), minus(c, a)), flat = Math.hypot(...square) < 1e-6;
        for (const p of [a, b, c]) solid.push(...p, ...kind);
        for (let i = 0; i < 3; i++) {
          const ends = [at[i], at[(i + 1) % 3]], key = `${Math.min(...ends)} ${Math.max(...ends)}`;
          const other = sides.get(key), here = flat ? null : unit(square);
          if (other && here && dot(other, here) < 0.8) edges.push(...corner(ends[0]), ...kind, ...corner(ends[1]), ...kind);
          if (here) sides.set(key, here);
        }
      }
    }
    return { solid: new Float32Array(solid), edges: new Float32Array(edges) };
  }

  // -- the picture ------------------------------------------------------------------------------------------
  function picture(canvas, data) {
    const gl = canvas.getContext("webgl2", { antialias: true, preserveDrawingBuffer: false });
    if (!gl) return null;
    const roles = [...new Set(data.bodies.map((b) => b.role))];
    const { solid, edges } = buffers(data, roles), place = {}, b = data.blade;
    let program, stores;
    function build() {
      program = gl.createProgram();
      const names = { KERF: "kerf", WORK: "work", OFFCUT: "offcut", SLED: "sled" };
      const numbered = FRAGMENT.replace(/\b(KERF|WORK|OFFCUT|SLED)\b/g, (name) => roles.indexOf(names[name]));
      for (const [kind, text] of [[gl.VERTEX_SHADER, VERTEX], [gl.FRAGMENT_SHADER, numbered]]) {
        const shader = gl.createShader(kind);
        gl.shaderSource(shader, text); gl.compileShader(shader); gl.attachShader(program, shader); gl.deleteShader(shader);
      }
      gl.bindAttribLocation(program, 0, "place"); gl.bindAttribLocation(program, 1, "kind");
      gl.linkProgram(program);
      if (!gl.getProgramParameter(program, gl.LINK_STATUS)) return !gl.isContextLost();
      gl.useProgram(program);
      stores = [solid, edges].map((values) => {
        const array = gl.createVertexArray(), store = gl.createBuffer();
        gl.bindVertexArray(array); gl.bindBuffer(gl.ARRAY_BUFFER, store);
        gl.bufferData(gl.ARRAY_BUFFER, values, gl.STATIC_DRAW);
        for (const [i, size, from] of [[0, 3, 0], [1, 2, 12]]) {
          gl.enableVertexAttribArray(i); gl.vertexAttribPointer(i, size, gl.FLOAT, false, 20, from);
        }
        return { array, store, count: values.length / 5 };
      });
      for (let i = gl.getProgramParameter(program, gl.ACTIVE_UNIFORMS) - 1; i >= 0; i--) {
        const name = gl.getActiveUniform(program, i).name;
        place[name.replace("[0]", "")] = gl.getUniformLocation(program, name);
      }
      const fall = data.fall || { at: [0, 0], out: [0, 1], by_mm: 0 };
      const fixed = { near: b.near_mm, kerf: b.kerf_mm, radius: b.radius_mm, depth: b.depth_mm, height: b.height_mm,
        side: data.side, hand: data.hand_line_mm, apart: fall.by_mm, free: data.free_mm ?? data.last_mm };
      for (const [name, value] of Object.entries(fixed)) if (place[name]) gl.uniform1f(place[name], value);
      gl.uniform4f(place.hinge, ...fall.at, ...fall.out);
      gl.enable(gl.DEPTH_TEST); gl.enable(gl.CULL_FACE); gl.enable(gl.POLYGON_OFFSET_FILL); gl.polygonOffset(1, 1);
      gl.enable(gl.BLEND); gl.blendFunc(gl.ONE, gl.ONE_MINUS_SRC_ALPHA);
      return true;
    }
    const light = (hex) => [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255);
    function colour(role, travel) {
      if (role === "stop_block" && travel > data.block_mm + data.tolerance_mm) return [0, 0, 0, 0];
      const now = data.free_mm === null || travel < data.free_mm - data.tolerance_mm;
      if (role === "offcut" && now) return [...light(data.colours.board), 1];
      const met = data.limit_mm !== null && travel >= data.limit_mm - data.tolerance_mm;
      if (role === "next" && met) return [...light(data.colours.in_the_way), 1];
      return [...light(data.bodies.find((body) => body.role === role).colour), 1];
    }
    function draw(travel, view) {
      if (gl.isContextLost()) return;
      const { eye, stand } = looking(view, canvas.width / canvas.height);
      const past = data.free_mm === null ? -1 : travel - data.free_mm + data.tolerance_mm;
      gl.viewport(0, 0, canvas.width, canvas.height);
      gl.clearColor(0, 0, 0, 0); gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
      gl.uniformMatrix4fv(place.eye, false, eye); gl.uniform3f(place.stand, ...stand);
      gl.uniform1f(place.travel, travel);
      gl.uniform1f(place.angle, past < 0 ? 0 : Math.PI / 2 * Math.min(1, 0.35 + past / 10));
      gl.uniform4fv(place.colours, roles.flatMap((role) => colour(role, travel)));
      stores.forEach(({ array, count }, i) => {
        gl.bindVertexArray(array); gl.uniform1i(place.lines, i); gl.drawArrays(i ? gl.LINES : gl.TRIANGLES, 0, count);
      });
    }
    function drop() {
      for (const { array, store } of stores || []) { gl.deleteVertexArray(array); gl.deleteBuffer(store); }
      gl.deleteProgram(program);
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
    let view = { ...data.views[0] }, travel = data.start_mm, asked = 0, gliding = 0;
    const three = picture(canvas, data);
    canvas.hidden = !three;
    find(".views").hidden = !three;
    find(".no-3d").hidden = !!three;
    find(".live").hidden = false;
    root.setAttribute("data-live", "");

    const soon = () => { asked ||= requestAnimationFrame(() => { asked = 0; three?.draw(travel, view); }); };
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
      cancelAnimationFrame(asked); cancelAnimationFrame(gliding);
    });
    look(data.views[0]);
    move(data.start_mm);
  }
  scarfwright.pieces.cut = show;
})();

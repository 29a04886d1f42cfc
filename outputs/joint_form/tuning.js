// What `tune` works out: models/tuning, function by function. K holds that room's constants, plan its Plan.
// A joint is a table as in joints.toml, its lengths in mm; angles in radians.

const tuning = (K, plan) => {
  const { abs, atan, ceil, cos, floor, hypot, max, min, sin, sqrt, tan } = Math;
  const planTip = plan.gap * sqrt(1 + plan.slope ** 2);
  const theta = atan(plan.slope);
  const roundTo = (x, step) => floor(x / step + 0.5) * step;
  const roundUp = (x, step) => ceil(x / step - 1e-9) * step;

  // ---- model.py: what a set-up {slope, tip, lean, boards} leaves on a test joint

  const across = (s) => tan(s.lean) * sqrt(1 + s.slope ** 2);

  function rows(joints, slope) {
    const boards = [];
    const found = joints.flatMap((joint) => [
      ...runs(joint, boards),
      ...tips(joint),
      ...(joint.thickness_at ?? []).flatMap((at) => station(joint, at, slope)),
      ...pair(joint, slope),
      ...skews(joint),
    ]);
    const thick = boards.map(([joint, piece], index) => thicknesses(joint, piece, index));
    return [[...found, ...thick.flat()], thick.map((some) => some.at(-1).read)];
  }

  function board(joint, piece, boards) {
    const named = (joint.board_thickness ?? []).some((reading) => reading.piece === piece);
    const key = named ? piece : undefined;
    const at = boards.findIndex((one) => one[0] === joint && one[1] === key);
    return at >= 0 ? at : boards.push([joint, key]) - 1;
  }

  const runs = (joint, boards) =>
    (joint.taper_run ?? []).flatMap((reading) => {
      const index = board(joint, reading.piece, boards);
      const mean = (s) => (s.boards[index] - s.tip) / s.slope;
      return read(joint, reading, "taper_run", K.RULE, mean, (s) => (-plan.height * across(s)) / s.slope);
    });

  const tips = (joint) =>
    (joint.tip ?? [])
      .filter((reading) => reading.top === undefined || min(reading.top, reading.bottom) > K.NOTHING)
      .flatMap((reading) => read(joint, reading, "tip", K.CALLIPER, (s) => s.tip, (s) => plan.height * across(s)));

  const station = (joint, at, slope) =>
    read(joint, { ...at, value: at.thickness }, "thickness_at", K.CALLIPER,
      (s) => s.tip + at.at * s.slope, (s) => plan.height * across(s), K.RULE * slope);

  function read(joint, { value, top, bottom }, what, sigma, mean, difference, marked = 0) {
    const key = keyOf(joint, what);
    const found = value === undefined ? [] : [{ key, what, read: value, sigma: hypot(sigma, marked), model: mean }];
    if (top === undefined) return found;
    const middle = { key, what, read: (top + bottom) / 2, sigma: hypot(sigma / sqrt(2), marked), model: mean };
    return [...found, middle, { key, what, read: top - bottom, sigma: sigma * sqrt(2), model: difference }];
  }

  function pair(joint, slope) {
    const found = [];
    const { gap_top: top, gap_bottom: bottom, twist, joint_thickness: thick, tip_to_tip: overlap } = joint;
    if (top !== undefined && bottom !== undefined) {
      const sigma = K.FEELER * (top > 0 && bottom > 0 ? sqrt(2) : 1);
      const key = keyOf(joint, "gap_top, gap_bottom");
      found.push({ key, what: "gap", read: bottom - top, sigma, model: (s) => 2 * plan.height * tan(s.lean) });
    }
    if (twist) {
      const [difference, long, hand] = twist;
      const model = (s) => long * sin(2 * atan(across(s)));
      found.push({ key: keyOf(joint, "twist"), what: "twist", read: sign(hand) * difference, sigma: K.STICKS, model, unsigned: !hand });
    }
    if (thick !== undefined && overlap !== undefined) {
      const key = keyOf(joint, "joint_thickness, tip_to_tip");
      const sigma = hypot(K.CALLIPER, K.RULE * slope);
      found.push({ key, what: "joint_thickness", read: thick, sigma, model: (s) => 2 * s.tip + overlap * s.slope });
    }
    return found;
  }

  const skews = (joint) =>
    (joint.line_skew ?? []).map(({ value, nearer }) => ({
      key: keyOf(joint, "line_skew"), what: "line_skew", read: sign(nearer) * value, sigma: K.RULE,
      model: (s) => (plan.height * across(s)) / s.slope, unsigned: !nearer,
    }));

  function thicknesses(joint, piece, index) {
    const row = { what: "board_thickness", model: (s) => s.boards[index] };
    const own = (joint.board_thickness ?? [])
      .filter((reading) => piece === undefined || [piece, undefined].includes(reading.piece))
      .map(({ value, top, bottom }) => ({ ...row, key: keyOf(joint, row.what), read: value ?? (top + bottom) / 2, sigma: K.CALLIPER }));
    return own.length ? own : [{ ...row, key: "the job's thickness", read: plan.thickness, sigma: K.PLANED }];
  }

  const sign = (end) => K.SIGNS[end ?? "none"];
  const keyOf = (joint, name) => `test_joint ${joint.number}, ${name}`;

  // ---- fit.py: least squares

  function fit(found, start) {
    const hands = found.some((row) => row.unsigned) ? [1, -1] : [1];
    const solved = hands.map((hand) => {
      const turned = found.map((row) => (row.unsigned ? { ...row, model: (s) => hand * row.model(s) } : row));
      const setup = solve(turned, start, hand);
      return { setup, turned, rank: misfit(turned, setup) - K.ALIKE_HANDS * hand };
    });
    const { setup, turned } = solved.reduce((a, b) => (b.rank < a.rank ? b : a));
    const handRead = turned.some((row) => !row.unsigned && row.model({ ...setup, lean: 0 }) !== row.model({ ...setup, lean: 0.01 }));
    const values = [setup.slope, setup.tip, handRead ? setup.lean : abs(setup.lean)];
    const [slope, tip, lean] = settledBy(turned, setup).map((sigma, i) => (sigma < Infinity ? { value: values[i], sigma } : null));
    return { slope, tip, lean, signed: handRead && lean !== null, residuals: residuals(turned, setup), setup };
  }

  function settledBy(found, setup) {
    const ways = settled(matrix(found, setup));
    return [0, 1, 2].map((i) => {
      const told = 1 - sum(ways, ({ way }) => way[i] ** 2) < K.WITHIN;
      return told ? K.SCALE[i] * sqrt(sum(ways, ({ way, size }) => (way[i] / size) ** 2)) : Infinity;
    });
  }

  function solve(found, start, hand) {
    let setup = { ...start, lean: start.lean || hand * 1e-3 };
    let best = misfit(found, setup);
    for (let i = 0; i < K.STEPS; i += 1) {
      const out = outs(found, setup);
      const ways = settled(matrix(found, setup)).map(({ column, size, way }) => [dot(out, column) / size, way]);
      const step = [...unknowns(setup)].map((j) => sum(ways, ([by, way]) => by * way[j]));
      let share = 1;
      const trial = () => moved(setup, step.map((part) => share * part));
      while (!(misfit(found, trial()) <= best) && share > 1e-4) share /= 2;
      const now = misfit(found, trial());
      if (!(now <= best)) break;
      const gained = best - now;
      [setup, best] = [trial(), now];
      if (max(...step.map(abs)) < K.SETTLED || gained < K.SETTLED * (1 + best) * 1e-3) break;
    }
    return setup;
  }

  const sum = (list, of) => list.reduce((total, one) => total + of(one), 0);
  const dot = (a, b) => a.reduce((total, one, i) => total + one * b[i], 0);
  const unknowns = (setup) => Array(3 + setup.boards.length).keys();
  const outs = (found, setup) => found.map((row) => (row.read - row.model(setup)) / row.sigma);
  const misfit = (found, setup) => sum(outs(found, setup), (out) => out ** 2);

  // By columns: one for each unknown
  const matrix = (found, setup) =>
    [...unknowns(setup)].map((j) => {
      const small = K.STEP[min(j, 3)] / K.SCALE[min(j, 3)];
      const [up, down] = [small, -small].map((by) => moved(setup, [...unknowns(setup)].map((i) => (i === j ? by : 0))));
      return found.map((row) => (row.model(up) - row.model(down)) / (2 * small * row.sigma));
    });

  // Singular values by turning the columns, two by two, until they are square to one another (one-sided Jacobi)
  function settled(columns) {
    const parts = columns.map((column, j) => ({ column: [...column], way: columns.map((_, i) => (i === j ? 1 : 0)) }));
    let turned = true;
    for (let sweep = 0; turned && sweep < 40; sweep += 1) {
      turned = false;
      parts.forEach((one, i) => parts.slice(i + 1).forEach((other) => {
        const [a, b, p] = [dot(one.column, one.column), dot(other.column, other.column), dot(one.column, other.column)];
        if (abs(p) <= 1e-15 * sqrt(a * b) || min(a, b) < 1e-18) return;
        turned = true;
        const zeta = (b - a) / (2 * p);
        const t = (zeta < 0 ? -1 : 1) / (abs(zeta) + sqrt(1 + zeta ** 2));
        const c = 1 / sqrt(1 + t ** 2);
        for (const key of ["column", "way"]) {
          const [x, y] = [one[key], other[key]];
          one[key] = x.map((part, k) => c * (part - t * y[k]));
          other[key] = y.map((part, k) => c * (t * x[k] + part));
        }
      }));
    }
    return parts
      .map(({ column, way }) => ({ column, way, size: sqrt(dot(column, column)) }))
      .filter(({ size }) => size > 1 / K.SURE_TO)
      .map(({ column, way, size }) => ({ way, size, column: column.map((part) => part / size) }));
  }

  function moved(setup, step) {
    const [slope, tip, lean, ...boards] = step.map((part, i) => part * K.SCALE[min(i, 3)]);
    return {
      slope: max(setup.slope + slope, 1e-3),
      tip: setup.tip + tip,
      lean: min(max(setup.lean + lean, -0.7), 0.7),
      boards: setup.boards.map((one, i) => one + boards[i]),
    };
  }

  function residuals(found, setup) {
    const ways = settled(matrix(found, setup));
    return outs(found, setup).map((miss, i) => {
      const spare = 1 - sum(ways, ({ column }) => column[i] ** 2);
      return { row: found[i], expected: found[i].model(setup), out: spare > 1e-6 ? miss / sqrt(spare) : 0 };
    });
  }

  // ---- corrections.py: what to change, and what to expect

  function corrections(found) {
    const tilt = tiltBy(found);
    const [shim, turn] = shimFor(found);
    const todo = [];
    if (tilt) {
      todo.push({ what: "blade_tilt", by: abs(tilt), towards: tilt > 0 ? "fence" : "free" });
      if (plan.halves) todo.push({ what: "other_half", instead_of: "blade_tilt" });
    }
    if (shim) todo.push(shim);
    todo.push(...fence(found, tilt, heelMoves(shim)));
    if (tilt || shim) todo.push({ what: "recut", by: recut(found, tilt, turn) });
    return todo;
  }

  function tiltBy({ lean, signed }) {
    if (!lean || !signed || abs(lean.value) + K.SURE * lean.sigma <= mostLean()) return 0;
    return roundTo(lean.value, K.TILT_STEP);
  }

  function mostLean() {
    const { gap, twist, joints } = plan.limits;
    const byGap = atan(gap / (2 * plan.height));
    return twist === null ? byGap : min(byGap, atan(cos(theta) * tan(twist / joints / 2)));
  }

  function shimFor({ slope }) {
    if (!slope || abs(slope.value - plan.slope) <= max(K.MOST_OFF * plan.slope, K.SURE * slope.sigma)) return [null, 0];
    const turn = theta - atan(slope.value);
    const at = placeOfShim(turn > 0);
    const arm = turn > 0 ? plan.fence_edge - at : at;
    const by = roundTo(abs(turn) * arm, K.SHIM_STEP);
    if (by <= 0) return [null, 0];
    return [{ what: turn > 0 ? "heel_shim" : "nose_shim", by, at }, Math.sign(turn) * Math.asin(by / arm)];
  }

  const heelMoves = (shim) =>
    shim?.what === "heel_shim" ? (shim.by * plan.fence_edge) / (plan.fence_edge - placeOfShim(true)) : 0;

  function placeOfShim(atHeel) {
    const least = roundUp(K.SHIM_WIDTH / 2, K.PLACE_STEP);
    return atHeel ? least : floor((plan.fence_edge - least) / K.PLACE_STEP) * K.PLACE_STEP;
  }

  function fence(found, tilt, moves) {
    if (!found.tip) return [];
    const gap = fenceGap(found);
    if (!gap) return [{ what: "fence", by: null }];
    const by = plan.gap - (gap.value - (plan.height / 2) * tan(tilt)) + moves;
    if (abs(by) <= max(K.FENCE, K.SURE * gap.sigma)) return [];
    const rounded = roundTo(by, K.SHIM_STEP);
    return [{ what: "fence", by: abs(rounded), towards: rounded > 0 ? "fence" : "free" }];
  }

  function fenceGap({ slope, tip }) {
    if (!tip || tip.value <= K.SURE * tip.sigma) return null;
    const share = slope ? cos(atan(slope.value)) : 1;
    return { value: tip.value * share, sigma: tip.sigma * share };
  }

  function recut(found, tilt, turn) {
    const slope = found.slope?.value ?? plan.slope;
    const lean = found.lean?.value ?? 0;
    const old = { slope, tip: found.tip?.value ?? 0, lean };
    const renewed = { slope: tan(atan(slope) + turn), tip: planTip, lean: lean - tilt };
    const corners = [0, (plan.thickness - old.tip) / slope].flatMap((u) => [-0.5, 0.5].map((w) => [u, w * plan.height]));
    const over = corners.map(([u, w]) => renewed.tip - old.tip + u * (renewed.slope - slope) + w * (across(renewed) - across(old)));
    return roundUp(max(...over, 0) / renewed.slope + K.CUT_STEP, K.CUT_STEP);
  }

  function expected({ lean }, tilt = 0) {
    if (!lean) return null;
    const left = lean.value - tilt;
    const likely = hypot(left, lean.sigma);
    const gap = 2 * plan.height * tan(likely);
    const twist = 2 * atan(tan(likely) / cos(theta));
    const limits = plan.limits;
    const inside = gap <= limits.gap && (limits.twist === null || twist * limits.joints <= limits.twist);
    return { gap, twist, inside, chance: chance(left, lean.sigma, mostLean()) };
  }

  function chance(middle, sigma, most) {
    if (sigma <= 0) return abs(middle) <= most ? 1 : 0;
    return (erf((most - middle) / (sigma * sqrt(2))) - erf((-most - middle) / (sigma * sqrt(2)))) / 2;
  }

  // By its series: 2 / sqrt(pi) exp(-x^2) sum of 2^n x^(2n+1) / (2n+1)!!
  function erf(x) {
    if (abs(x) > 6) return Math.sign(x);
    let [term, total] = [x, x];
    for (let n = 1; abs(term) > 1e-17 * abs(total); n += 1) total += term *= (2 * x * x) / (2 * n + 1);
    return (2 / sqrt(Math.PI)) * Math.exp(-x * x) * total;
  }

  // ---- tune.py

  function tune(joints) {
    let found = fitTo(joints, plan.slope);
    if (found.slope && abs(found.slope.value / plan.slope - 1) > 0.02) found = fitTo(joints, found.slope.value);
    const wrong = contradictions(found);
    const untold = untoldOf(found);
    return {
      fit: found,
      ratio: found.slope && { value: 1 / found.slope.value, sigma: found.slope.sigma / found.slope.value ** 2 },
      fence_gap: fenceGap(found),
      untold,
      would_tell: Object.fromEntries(untold.map((name) => [name, wouldTell(name, joints, found)])),
      contradictions: wrong,
      unused: joints.flatMap(unusedOf),
      corrections: wrong.length ? [] : corrections(found),
      now: expected(found),
      after: wrong.length ? null : expected(found, tiltBy(found)),
    };
  }

  function fitTo(joints, slope) {
    const [readings, boards] = rows(joints, slope);
    return fit(readings, { slope: plan.slope, tip: planTip, lean: 0, boards });
  }

  function contradictions({ slope, setup, residuals: misses }) {
    const times = slope ? slope.value / plan.slope : 1;
    if (times <= 1 / K.NO_SLED || times >= K.NO_SLED) {
      const meant = { ...setup, slope: plan.slope, tip: planTip };
      misses = misses.map(({ row }) => ({ row, expected: row.model(meant), out: (row.read - row.model(meant)) / row.sigma }));
    }
    const worst = max(0, ...misses.map(({ out }) => abs(out)));
    return worst <= K.TOO_FAR ? [] : misses.filter(({ out }) => abs(out) >= K.ALIKE * worst);
  }

  const unusedOf = (joint) =>
    K.PAIRS.flatMap(([one, other]) => {
      const [a, b] = [joint[one] !== undefined, joint[other] !== undefined];
      return a === b ? [] : [a ? [joint.number, one, other] : [joint.number, other, one]];
    });

  function untoldOf(found) {
    const missing = {
      ratio: !found.slope,
      tip_mm: !found.tip,
      fence_gap_mm: !fenceGap(found),
      lean_deg: !found.lean,
      lean_sign: found.lean && !found.signed,
    };
    return Object.keys(missing).filter((name) => missing[name]);
  }

  function wouldTell(name, joints, found) {
    if (name === "fence_gap_mm" && found.tip) return [];
    const ways = waysOn(joints.at(-1)).filter(([keys, joint]) => {
      if (name === "lean_sign") return K.SHOW_A_HAND.includes(keys[0]);
      const [readings, boards] = rows([...joints.slice(0, -1), joint], plan.slope);
      const usual = { slope: plan.slope, tip: planTip, lean: 1e-3, boards: boards.map(() => plan.thickness) };
      const which = { ratio: 0, tip_mm: 1, fence_gap_mm: 1, lean_deg: 2 }[name];
      const coarse = [K.COARSE * plan.slope, K.COARSE * plan.thickness, K.COARSE_LEAN];
      return settledBy(readings, usual)[which] <= coarse[which];
    }).map(([keys]) => keys);
    return ways.filter((keys) => !ways.some((other) => less(other, keys)));
  }

  const less = (one, other) =>
    (one.length < other.length && one.every((key) => other.includes(key))) ||
    (one[0] === "thickness_at one mark" && other[0] === "thickness_at two marks");

  function waysOn(joint) {
    const run = (plan.thickness - planTip) / plan.slope;
    const mark = (share) => ({ at: share * run, thickness: planTip + share * run * plan.slope });
    const edges = { at: 0.5 * run, top: plan.thickness / 2, bottom: plan.thickness / 2 };
    const more = (key, ...others) => ({ [key]: [...(joint[key] ?? []), ...others] });
    const ways = [
      [["tip"], more("tip", { value: planTip })],
      [["taper_run"], more("taper_run", { value: run })],
      [["thickness_at one mark"], more("thickness_at", mark(0.8))],
      [["thickness_at two marks"], more("thickness_at", mark(0.2), mark(0.8))],
      [["tip", "taper_run"], { ...more("tip", { value: planTip }), ...more("taper_run", { value: run }) }],
      [["gap_top", "gap_bottom"], { gap_top: 0, gap_bottom: 0.1 }],
      [["twist with its hand"], { twist: [1, 300, "down"] }],
      [["line_skew with its near end"], more("line_skew", { value: 1, nearer: "top" })],
      [["thickness_at at both edges"], more("thickness_at", edges)],
    ];
    return ways.map(([keys, change]) => [keys, { ...joint, ...change }]);
  }

  return { tune };
};

// What is said of a result: models/words/the_joint/tuning.py, function by function; `say` holds the sentences.

const saying = (say, rowNames, nobody, plan, { show, fine }) => {
  const tell = (what, parts = {}) => fill(say[what], parts);
  const degrees = (angle) => fixed((angle * 180) / Math.PI, 2);
  const plain = (key) => key.replaceAll("_", " ");
  const planTip = plan.gap * Math.sqrt(1 + plan.slope ** 2);

  function setUpLines({ ratio, fence_gap: gap, fit: { tip, lean, signed } }) {
    const rows = [];
    const length = (row, { value, sigma }, planned) =>
      rows.push([rowNames[row], tell("length", { found: fine(value), sure: fine(2 * sigma), planned: fine(planned) })]);
    if (ratio) {
      const [found, sure, planned] = [ratio.value, 2 * ratio.sigma, 1 / plan.slope].map((n) => fixed(n, 2));
      rows.push([rowNames.slope, tell("slope", { found, sure, planned })]);
    }
    if (tip) length("tip", tip, planTip);
    if (gap) length("gap", gap, plan.gap);
    if (lean) {
      const [found, sure] = [degrees(Math.abs(lean.value)), degrees(2 * lean.sigma)];
      rows.push([rowNames.lean, tell("lean", { found, sure, hand: say[hand(lean, signed)] })]);
    }
    return rows;
  }

  function hand({ value, sigma }, signed) {
    if (!signed) return "hand_unknown";
    if (Math.abs(value) <= 2 * sigma) return "hand_none";
    return value > 0 ? "hand_away" : "hand_towards";
  }

  function correction({ what, by, at, towards }) {
    if (what === "blade_tilt") return tell(what, { by: degrees(by), side: say[`side_${towards}`] });
    if (what === "fence" && by === null) return tell("fence_anew", { no_tip: say.no_tip });
    return tell(what === "fence" ? `fence_towards_${towards}` : what, {
      by: what === "recut" ? show(by) : fine(by ?? 0),
      at: show(at ?? 0),
    });
  }

  function expectedLine({ now, after, corrections }) {
    if (!now) return null;
    if (!after || !corrections.some(({ what }) => what === "blade_tilt")) return tell("now", { now: comesTo(now) });
    return tell("now_and_after", { now: comesTo(now), after: comesTo(after) });
  }

  const comesTo = ({ gap, twist, inside, chance }) =>
    tell("comes_to", { gap: fine(gap), twist: degrees(twist), inside: inside ? "inside" : "outside", chance: hundred(chance) });

  function hundred(share) {
    let count = even(100 * share);
    if (share < 1 - nobody) count = Math.min(count, 99);
    if (share > nobody) count = Math.max(count, 1);
    return `${count} of 100`;
  }

  function untoldLines({ untold, would_tell: would, unused, fit }) {
    const lines = untold.map((name) => {
      const ways = would[name].map((keys) => keys.map(plain).join(" and ")).join("; ");
      const way = ways ? tell("would_tell", { ways }) : say.measure_more;
      return tell("not_known", { what: say[`what_${name}`], way: name === "fence_gap_mm" && fit.tip ? say.no_tip : way });
    });
    const alone = unused.map(([number, key, needs]) => tell("not_used", { key: plain(key), number, needs: plain(needs) }));
    return [...lines, ...alone];
  }

  const misfit = ({ row, expected, out }) =>
    tell("misfit", { reading: plain(row.key), read: fine(row.read), expected: fine(expected), times: fixed(Math.abs(out), 0) });

  return (found) => ({
    setUp: setUpLines(found),
    corrections: found.corrections.map(correction),
    expected: expectedLine(found),
    untold: untoldLines(found),
    contradictions: found.contradictions.length ? [...found.contradictions.map(misfit), say.held_back] : [],
    nothing: !found.corrections.length && !found.contradictions.length && !found.untold.some((name) => /^lean/.test(name)),
  });
};

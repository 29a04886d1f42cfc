// Lengths as the job file reads and shows them: models/lengths/length.py, function by function.
// A fraction is [over, under], both BigInt; `data` holds the units, the signs, and why a text is refused.

const fill = (text, parts) => text.replace(/\{(\w+)\}/g, (_, name) => parts[name]);

// Rounds an exact half to the even digit, as Python does
const even = (x) => (Math.abs(x % 1) === 0.5 ? 2 * Math.round(x / 2) : Math.round(x));
function fixed(x, places) {
  const exact = Math.abs(x).toFixed(60);
  const at = exact.indexOf(".") + 1 + places;
  if (!/^50*$/.test(exact.slice(at))) return x.toFixed(places);
  const down = exact.slice(0, at).replace(/\.$/, "");
  return Number(down.at(-1)) % 2 ? x.toFixed(places) : (x < 0 ? "-" : "") + down;
}

const lengths = (data, units) => {
  const TERM = new RegExp(`\\s*(${data.number})\\s*([a-zA-Z]+|'|")?\\.?`.replaceAll("\\s", "[ \\t-\\r]"), "y");
  const unitMm = Object.fromEntries(Object.entries(data.mm).map(([unit, part]) => [unit, part.map(BigInt)]));
  const shown = (text) => ([...text].length > 58 ? [...`"${text}`].slice(0, 57).join("") + "..." : `"${text}"`);
  class Refused extends Error {}
  const refuse = (why, text, parts = {}) => {
    throw new Refused(fill(data.refused[why], { found: shown(text), ...parts }));
  };
  const plus = ([a, b], [c, d]) => [a * d + c * b, b * d];
  const times = ([a, b], [c, d]) => [a * c, b * d];

  // What is typed beside the job's unit: {mm, text}, the text as a job file writes it. Throws Refused.
  function parse(value) {
    if ([...value].length > data.longest_text) refuse("form", value);
    return checked(...parseText(value), value);
  }

  function parseText(value) {
    if (/^0+([.,]0*)?$/.test(value.trim())) return [[0n, 1n], units];
    let text = value.trim().replace(/[″”]/g, '"').replace(/[′’]/g, "'").replaceAll("''", '"');
    for (const [sign, plain] of Object.entries(data.vulgar)) text = text.replaceAll(sign, ` ${plain}`);
    text = text.trim();
    if (/[-,]$/.test(text)) refuse("form", value);
    if (text.startsWith("-")) refuse("negative", value);
    const [thousands] = text.match(/(?<!\d)[1-9]\d{0,2},\d{3}(?!\d)/) ?? [];
    if (thousands) refuse("thousands", value, { many: thousands.replace(",", ""), few: thousands.replace(",", ".") });
    let total = [0n, 1n];
    const seen = [];
    for (TERM.lastIndex = 0; TERM.lastIndex < text.length; ) {
      const match = TERM.exec(text);
      if (!match) refuse("form", value);
      if (!match[2] && (seen.length || TERM.lastIndex < text.length)) refuse("unit_missing", value);
      const name = match[2] ?? units;
      const unit = Object.hasOwn(data.names, name.toLowerCase()) ? data.names[name.toLowerCase()] : null;
      if (!unit) refuse("unit_unknown", value, { name });
      if (seen.length && (seen.at(-1) !== "ft" || unit !== "in")) refuse("mixed", value);
      total = plus(total, times(number(match[1], value), unitMm[unit]));
      seen.push(unit);
      while (" -,".includes(text[TERM.lastIndex] ?? "x")) TERM.lastIndex += 1;
    }
    if (!seen.length) refuse("form", value);
    return [total, ["in", "ft"].includes(seen[0]) ? "in" : "mm"];
  }

  function number(text, whole) {
    let total = [0n, 1n];
    for (const part of text.trim().split(/\s*-\s*|\s+(?=\d+\s*\/)/)) {
      const [over, under = "1"] = part.replace(/\s/g, "").replace(",", ".").split("/");
      if (BigInt(under) === 0n) refuse("zero", whole);
      const [before, after = ""] = over.split(".");
      total = plus(total, [BigInt(before + after), BigInt(under) * 10n ** BigInt(after.length)]);
    }
    return total;
  }

  function checked([over, under], unit, value) {
    if (over > 0n && over * 1000n < under) refuse("short", value);
    if (over > BigInt(data.longest_mm) * under) refuse("long", value);
    const text = unit === "in" ? `${mixed(...times([over, under], [unitMm.in[1], unitMm.in[0]]))} in` : `${decimal(over, under)} mm`;
    if (text.length > data.longest_text) refuse("fine", value);
    return { mm: Number(over) / Number(under), text };
  }

  function mixed(over, under) {
    let [a, b] = [over, under];
    while (b) [a, b] = [b, a % b];
    const [whole, rest] = [over / under, over % under];
    if (!rest) return String(whole);
    return (whole ? `${whole} ` : "") + `${rest / a}/${under / a}`;
  }

  // Exact, or to 60 digits
  function decimal(over, under) {
    if (!over) return "0";
    let places = 0;
    while ((over * 10n ** BigInt(places + 1)) / under < 10n ** 60n) places += 1;
    const scaled = over * 10n ** BigInt(places);
    const twice = (2n * (scaled % under)) - under;
    let digits = scaled / under;
    if (twice > 0n || (twice === 0n && digits % 2n)) digits += 1n;
    const text = String(digits).padStart(places + 1, "0");
    return `${text.slice(0, text.length - places)}.${text.slice(text.length - places)}`.replace(/\.?0*$/, "");
  }

  function show(mm, places = 1, sixtyfourths = true) {
    if (units === "mm") {
      const text = fixed(mm, places).replace(/(\.\d*?)0+$/, "$1").replace(/\.$/, "");
      return `${text === "-0" ? "0" : text} mm`;
    }
    if (!sixtyfourths) return `${fixed(mm / 25.4, 3).replace(/^-(?=[0.]+$)/, "")} in`;
    const steps = even((Math.abs(mm) / 25.4) * 64);
    return `${mm < 0 && steps ? "-" : ""}${mixed(BigInt(steps), 64n)} in`;
  }

  return { parse, show, fine: (mm) => show(mm, 2, false), Refused };
};

"""An independent check of a plan, in fractions, from the request and the plan alone: nothing of the planner's code.

`complaints` gives a list of sentences, empty for a sound plan. The rules it follows are those that plans are made by:
kerf between cuts, trims, no cut in a defect, whole marks, joints outside keep-clear stretches, spacing, stagger.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import pairwise
from math import ceil, floor
from typing import Any


def frac(value: Any) -> Fraction:
    return Fraction(repr(float(value))) if isinstance(value, float) else Fraction(value)


def complaints(request: Any, plan: Any) -> list[str]:
    """All that is wrong with a plan."""
    return [
        *_everything_once(request, plan),
        *_boards(request, plan),
        *_blanks(request, plan),
        *_mates(request, plan),
        *_figures(request, plan),
        *_spare(request, plan),
    ]


def _everything_once(request: Any, plan: Any) -> list[str]:
    wanted = sorted((i, c) for i, b in enumerate(request.blanks) for c in range(1, b.count + 1))
    told = sorted([(b.blank, b.copy) for b in plan.blanks] + [(m.blank, m.copy) for m in plan.missing])
    found = [] if told == wanted else [f"blanks wanted {wanted}, told {told}"]
    if (plan.verdict == "made") != (not plan.missing):
        found.append("the verdict and the missing blanks do not agree")
    return found


def _cuts(plan: Any) -> dict[tuple[int, int, int], list[Any]]:
    found: dict[tuple[int, int, int], list[Any]] = {}
    for blank in plan.blanks:
        for cut in blank.pieces:
            found.setdefault((cut.board, cut.copy, cut.strip), []).append(cut)
    return {key: sorted(cuts, key=lambda c: frac(c.start)) for key, cuts in found.items()}


def _boards(request: Any, plan: Any) -> list[str]:
    rules = request.rules
    kerf, trim, height, rip = frac(rules.kerf), frac(rules.end_trim), frac(rules.height), frac(rules.rip_kerf)
    found = []
    for (index, copy, strip), cuts in _cuts(plan).items():
        board = request.boards[index]
        name = f"board {index} copy {copy} strip {strip}"
        width = height if board.width is None else frac(board.width)
        if not 1 <= copy <= board.count:
            found.append(f"{name}: there is no such copy")
        if strip * height + (strip - 1) * rip > width or strip < 1:
            found.append(f"{name}: the strip does not fit {width}")
        if board.thickness is not None and frac(board.thickness) < frac(rules.thickness):
            found.append(f"{name}: too thin")
        if cuts[0].start < trim or cuts[-1].end > frac(board.length) - trim:
            found.append(f"{name}: a cut in the trim")
        for one, other in pairwise(cuts):
            if other.start - one.end < kerf:
                found.append(f"{name}: no room for the saw between {one} and {other}")
        for cut in cuts:
            if any(cut.start < frac(b) and cut.end > frac(a) for a, b in board.defects) or cut.end <= cut.start:
                found.append(f"{name}: {cut} meets a defect")
    return found


def _blanks(request: Any, plan: Any) -> list[str]:
    rules = request.rules
    X, mark, least = frac(rules.overlap), frac(rules.mark), frac(rules.least)
    found = []
    for made in plan.blanks:
        blank = request.blanks[made.blank]
        name = f"blank {made.blank} copy {made.copy}"
        allowance = frac(blank.allowance)
        wanted = frac(blank.length) + 2 * allowance
        lengths = [frac(c.end) - frac(c.start) for c in made.pieces]
        n = len(lengths)
        length = sum(lengths) - (n - 1) * X
        if any((x / mark).denominator != 1 for x in lengths):
            found.append(f"{name}: pieces not on marks")
        if n > 1 and min(lengths) < least:
            found.append(f"{name}: a piece under the least")
        if not 0 <= length - wanted < mark or made.length != length:
            found.append(f"{name}: {float(length)} long, told {float(made.length)}, wanted {float(wanted)}")
        begins = [sum(lengths[: j + 1]) - (j + 1) * X for j in range(n - 1)]
        if [j.station for j in made.joints] != [b + X / 2 - allowance for b in begins]:
            found.append(f"{name}: stations are not the middles of the joints")
        for begin in begins:
            if begin < 0 or begin + X > length:
                found.append(f"{name}: a joint outside the blank")
            for a, b in blank.keep_clear:
                if begin < frac(b) + allowance and begin + X > frac(a) + allowance:
                    found.append(f"{name}: a joint in a keep-clear stretch")
        for one, other in pairwise(begins):
            if other - one - X < frac(rules.spacing) * X:
                found.append(f"{name}: joints too near")
    return found


def mates_of(request: Any) -> list[tuple[tuple[int, int], tuple[int, int], Fraction]]:
    """Pairs of (blank, copy) whose joints keep a clear distance."""
    found = []
    groups: dict[str, list[tuple[int, int]]] = {}
    for index, blank in enumerate(request.blanks):
        for copy in range(1, blank.count + 1):
            if blank.group:
                groups.setdefault(blank.group, []).append((index, copy))
            if blank.mirrored and copy % 2 == 0:
                found.append(((index, copy - 1), (index, copy), Fraction(0)))
    for members in groups.values():
        for i, one in enumerate(members):
            for j in range(i + 1, len(members)):
                blanks = request.blanks[one[0]], request.blanks[members[j][0]]
                near = [b.neighbours for b in blanks if b.neighbours is not None]
                if not near or j - i <= max(near):
                    found.append((one, members[j], max(frac(b.stagger) for b in blanks)))
    return found


def _mates(request: Any, plan: Any) -> list[str]:
    X = frac(request.rules.overlap)
    stations = {(b.blank, b.copy): [frac(j.station) for j in b.joints] for b in plan.blanks}
    return [
        f"{one} and {other}: joints at {float(s)} and {float(t)} too near"
        for one, other, clear in mates_of(request)
        for s in stations.get(one, ())
        for t in stations.get(other, ())
        if abs(s - t) < X + clear
    ]


def clear_runs(request: Any) -> list[tuple[int, int, int, Fraction, Fraction]]:
    """(board, copy, strip, from, to) of all clear runs; a defect narrower than the kerf takes a kerf."""
    rules = request.rules
    kerf, trim, height, rip = frac(rules.kerf), frac(rules.end_trim), frac(rules.height), frac(rules.rip_kerf)
    found = []
    for index, board in enumerate(request.boards):
        width = height if board.width is None else frac(board.width)
        thin = board.thickness is not None and frac(board.thickness) < frac(rules.thickness)
        many = 0
        while not thin and (many + 1) * height + many * rip <= width:
            many += 1
        edges = [trim]
        for a, b in sorted((frac(a), frac(b)) for a, b in board.defects):
            more = max(kerf - (b - a), Fraction(0)) / 2
            edges += [a - more, b + more]
        edges.append(frac(board.length) - trim)
        for copy in range(1, board.count + 1):
            for strip in range(1, many + 1):
                for a, b in zip(edges[::2], edges[1::2], strict=True):
                    low, high = max(a, trim), min(b, frac(board.length) - trim)
                    if high > low:
                        found.append((index, copy, strip, low, high))
    return found


def _figures(request: Any, plan: Any) -> list[str]:
    """Joints, boards, wood, price and leftovers counted again."""
    kerf, keep = frac(request.rules.kerf), frac(request.rules.keep)
    joints = sum(len(b.pieces) - 1 for b in plan.blanks)
    opened = {(c.board, c.copy) for b in plan.blanks for c in b.pieces}
    consumed, leftovers = Fraction(0), []
    cuts = _cuts(plan)
    for board, copy, strip, low, high in clear_runs(request):
        here = [c for c in cuts.get((board, copy, strip), ()) if low <= c.start and c.end <= high]
        if not here:
            rest = high - low - _spared(plan, kerf, board, copy, strip, low, high)
            if (board, copy) in opened and rest > 0 and rest >= keep:
                leftovers.append((board, copy, strip, rest))
            continue
        rest = high - low - sum(c.end - c.start + kerf for c in here)
        kept = rest > 0 and rest >= keep
        consumed += high - low - (rest if kept else 0)
        rest -= _spared(plan, kerf, board, copy, strip, low, high)
        if rest > 0 and rest >= keep:
            leftovers.append((board, copy, strip, rest))
    priced = any(b.price is not None for b in request.boards)
    price = sum((frac(request.boards[b].price or 0) for b, _ in opened), Fraction(0)) if priced else None
    needed = opened | {(c.board, c.copy) for c in plan.spare}
    idle = sorted((i, c) for i, b in enumerate(request.boards) for c in range(1, b.count + 1) if (i, c) not in needed)
    told = {
        "joints": (plan.joints, joints),
        "boards": (plan.boards_used, len(opened)),
        "consumed": (plan.consumed, consumed),
        "price": (plan.price, price),
        "unused": (sorted(plan.unused), idle),
        "leftovers": (sorted((c.board, c.copy, c.strip, c.end - c.start) for c in plan.leftovers), sorted(leftovers)),
    }
    found = [f"{name}: told {a}, counted {b}" for name, (a, b) in told.items() if a != b]
    if plan.verdict == "made":
        bounds = ((plan.bound_joints, joints), (plan.bound_consumed, consumed), (plan.bound_price, price))
        found += [f"bound {b} over {a}" for b, a in bounds if b is not None and a is not None and b > a]
    return found


def longest_offcut(request: Any, plan: Any) -> Fraction:
    """The longest clear stretch worth keeping of boards that were cut into, before the spare length comes off it."""
    kerf, cuts = frac(request.rules.kerf), _cuts(plan)
    opened = {key[:2] for key in cuts}
    rests = []
    for board, copy, strip, low, high in clear_runs(request):
        if (board, copy) in opened:
            here = [c for c in cuts.get((board, copy, strip), ()) if low <= c.start and c.end <= high]
            rests.append(high - low - sum(c.end - c.start + kerf for c in here))
    return max((rest for rest in rests if rest > 0 and rest >= frac(request.rules.keep)), default=Fraction(0))


def _spared(
    plan: Any, kerf: Fraction, board: int, copy: int, strip: int, low: Fraction, high: Fraction
) -> Fraction:  # fmt: skip
    """What the spare length takes of a clear run, its saw cut with it."""
    here = [c for c in plan.spare if (c.board, c.copy, c.strip) == (board, copy, strip) and low <= c.start < high]
    return sum((c.end - c.start + kerf for c in here), Fraction(0))


def _spare(request: Any, plan: Any) -> list[str]:
    found = []
    for cut in plan.spare:
        if cut.end - cut.start < frac(request.rules.spare):
            found.append("the spare length is too short")
        home = [r for r in clear_runs(request) if r[:3] == (cut.board, cut.copy, cut.strip)]
        if not any(low <= cut.start and cut.end <= high for *_, low, high in home):
            found.append("the spare length is not clear wood")
        for other in _cuts(plan).get((cut.board, cut.copy, cut.strip), ()):
            if cut.start < other.end + frac(request.rules.kerf) and other.start < cut.end + frac(request.rules.kerf):
                found.append("the spare length lies on a piece")
    return found


# -- the row that bounds the joints, by another way -------------------------------------------------------------


def row_complaints(request: Any, row: Any, pieces: int | None) -> list[str]:
    """Whether the row named proves that fewer than `pieces` pieces (None: any number) will not do. Small marks only."""
    if row is None:
        least = sum(b.count for b in request.blanks)
        return [] if pieces == least else [f"no row, yet {pieces} pieces are said to be needed"]
    if row.kind == "alone":
        base = [
            min(_shares(request, b, Fraction(0), "length"), default=None)
            for b in request.blanks
            for _ in range(b.count)
        ]
        if pieces is None:
            return [] if None in base else ["every blank can be made alone"]
        return [] if pieces == sum(b for b in base if b is not None) else [f"alone: {base} against {pieces}"]
    if row.kind == "side by side":
        from tests.plan_brute import brute

        near = {item[0] for one, other, _ in mates_of(request) for item in (one, other)}
        best = brute(replace(request, blanks=tuple(b for i, b in enumerate(request.blanks) if i in near)))
        alone = [min(_shares(request, b, Fraction(0), "length")) for i, b in enumerate(request.blanks) if i not in near
                 for _ in range(b.count)]  # fmt: skip
        need = best[0] + sum(request.blanks[i].count for i in near) if best else 0
        return [] if need + sum(alone) >= (pieces or 10**6) else [f"side by side {need}, {alone}, not {pieces}"]
    have = _supply(request, row.tau, row.kind)
    shares = [_shares(request, b, row.tau, row.kind) for b in request.blanks for _ in range(b.count)]
    needs: dict[int, Fraction] = {0: Fraction(0)}
    for share in shares:
        fresh: dict[int, Fraction] = {}
        for done, need in needs.items():
            for n, more in share.items():
                fresh[done + n] = min(fresh.get(done + n, need + more), need + more)
        needs = fresh
    enough = [n for n, need in needs.items() if need <= have]
    if pieces is None:
        return [] if not enough else [f"{row}: {min(enough)} pieces would do"]
    return [] if not enough or min(enough) >= pieces else [f"{row}: {min(enough)} pieces would do, {pieces} claimed"]


def _supply(request: Any, tau: Fraction, kind: str) -> Fraction:
    mark, kerf = frac(request.rules.mark), frac(request.rules.kerf)
    lengths = [high - low for *_, low, high in clear_runs(request)]
    if kind == "length":
        return sum((max((x // mark * mark if tau >= 0 else x) - tau, Fraction(0)) for x in lengths), Fraction(0))
    shortest = (tau // mark + 1) * mark if kind == "pieces" else tau
    return Fraction(sum((x + kerf) // (shortest + kerf) for x in lengths))


def _shares(request: Any, blank: Any, tau: Fraction, kind: str) -> dict[int, Fraction]:
    """Least that a blank of n pieces takes of a row, by trying every place of its joints, for each possible n."""
    rules = request.rules
    mark, X = frac(rules.mark), frac(rules.overlap) / frac(rules.mark)
    ends = max(ceil(frac(rules.least) / mark), ceil(X), 1)
    middles = max(ends, ceil((frac(rules.spacing) + 2) * X))
    offset = frac(blank.allowance) / mark
    length = frac(blank.length) / mark + 2 * offset
    zones = [(frac(a) / mark + offset, frac(b) / mark + offset) for a, b in blank.keep_clear]
    longest = max((floor((high - low) / mark) for *_, low, high in clear_runs(request)), default=0)

    def lost(piece: int) -> Fraction:
        if kind == "length":
            return piece * mark - tau if tau < 0 else max(piece * mark - tau, Fraction(0))
        return Fraction(int(piece * mark > tau)) if kind == "pieces" else Fraction(0)

    @cache
    def cheapest(n: int, j: int, at: int) -> Fraction | None:
        """Pieces j+1 .. n after N_j = at."""
        total = ceil(length + (n - 1) * X)
        least = 1 if n == 1 else ends if j in (0, n - 1) else middles
        best = None
        for piece in [total - at] if j == n - 1 else range(least, longest + 1):
            here = at + piece
            if not least <= piece <= longest or here > total:
                continue
            begin = here - (j + 1) * X
            if j < n - 1 and any(begin < b and begin + X > a for a, b in zones):
                continue
            rest = Fraction(0) if j == n - 1 else cheapest(n, j + 1, here)
            if rest is not None and (best is None or lost(piece) + rest < best):
                best = lost(piece) + rest
        return best

    found = {}
    n = 1
    while n == 1 or (n - 2) * middles + 2 * ends <= ceil(length + (n - 1) * X):
        value = cheapest(n, 0, 0)
        if value is not None:
            found[n] = Fraction(max(n - 2, 0)) if kind == "middles" else value
        n += 1
    return found

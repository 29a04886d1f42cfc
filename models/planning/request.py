"""What a job asks the plan for: its boards and blanks, the overlap of its joint, what its sled can hold."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from scarfwright.models.groundwork import Groundwork
from scarfwright.models.plan.data import Blank, Board, Buy, Request, Rules, Stretch

Use = Callable[[float, float], float]


def wants_plan(work: Groundwork) -> bool:
    """Whether the job has boards and blanks to plan with."""
    return bool(work.job.board) and any(b.length is not None for b in work.job.blank)


def request_of(work: Groundwork) -> Request:
    """The job's boards, blanks and rules. A blank without a length is only bent, not planned.

    The shortest piece is what two clamps of the sled hold, or what the job says.
    """
    job, asked = work.job, work.job.plan
    clamps = sorted(c.least_board for c in work.way.layout.clamps)
    held = clamps[min(1, len(clamps) - 1)] if clamps else 0.0
    rules = Rules(
        thickness=float(job.stock.thickness),
        height=float(job.stock.height),
        overlap=work.joint.overlap,
        mark=float(asked.mark),
        least=held if asked.least_piece == "auto" else float(asked.least_piece),
        spacing=asked.spacing,
        keep=float(asked.keep),
        spare=float(asked.spare),
        end_trim=float(asked.end_trim),
        kerf=float(asked.crosscut_kerf),
        rip_kerf=float(job.saw.kerf),
        effort=asked.effort,
    )
    boards = tuple(
        Board(
            b.name or f"board {k}", float(b.length), _or_none(b.width), _or_none(b.thickness), b.count, b.price,
            _pairs(b.defects),
        )
        for k, b in enumerate(job.board, 1)
    )  # fmt: skip
    buy = tuple(Buy(float(b.length), _or_none(b.width), _or_none(b.thickness), b.price) for b in job.buy)
    return Request(rules, boards, _blanks(work), buy)


def _blanks(work: Groundwork) -> tuple[Blank, ...]:
    return tuple(
        Blank(
            name=b.name or f"blank {k}",
            length=float(b.length),
            count=b.count,
            allowance=float(b.allowance),
            keep_clear=_pairs(b.keep_clear),
            mirrored=b.mirrored,
            group=b.group,
            stagger=float(b.stagger),
            neighbours=b.neighbours,
            members=b.members,
            rip_kerf=float(b.rip_kerf),
        )
        for k, b in enumerate(work.job.blank, 1)
        if b.length is not None
    )


def with_bends(request: Request, zones: Mapping[int, tuple[Stretch, ...]], uses: Mapping[int, Use]) -> Request:
    """The request with what bending asks of its blanks, by their place in `request.blanks`: stretches where the use of
    a joint would exceed 1 are kept clear like those of the job, and `uses` tells the use of a joint from a station to
    another."""
    blanks = tuple(
        replace(b, keep_clear=joined((*b.keep_clear, *zones.get(k, ()))), use=uses.get(k, b.use))
        for k, b in enumerate(request.blanks)
    )
    return replace(request, blanks=blanks)


def joined(stretches: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
    """Stretches in order, those that touch or overlap made one."""
    found: list[Stretch] = []
    for low, high in sorted(stretches):
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return tuple(found)


def _or_none(value: float | None) -> float | None:
    return None if value is None else float(value)


def _pairs(stretches: Sequence[tuple[float, float]]) -> tuple[Stretch, ...]:
    return tuple((float(a), float(b)) for a, b in stretches)

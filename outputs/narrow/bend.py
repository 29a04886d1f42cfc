from scarfwright.models.workup import Workup
from scarfwright.outputs.narrow.scene import Scene


def bend_scenes(work: Workup) -> list[Scene]:
    return []


def planing_scenes(work: Workup) -> list[Scene]:
    return []

from scarfwright.models.workup import Workup
from scarfwright.outputs.narrow.scene import Scene


def plank_scenes(work: Workup) -> list[Scene]:
    return []


def dividing_scenes(work: Workup) -> list[Scene]:
    return []

from scarfwright.models.planning.planned import Planned
from scarfwright.models.workup import Workup
from scarfwright.outputs.narrow.scene import Scene


def plan_scenes(work: Workup, planned: Planned) -> list[Scene]:
    return []

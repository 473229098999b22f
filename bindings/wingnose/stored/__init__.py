"""What studies leave in HDF5 files, read back into plain values.

Values stay in the units of the file (km/h, kN, mm, ms), told by every dataset; what does not exist is NaN.

Examples
--------
>>> import tempfile, pathlib, wingnose
>>> from wingnose import io, stored, study
>>> case = wingnose.read_case("profiles/demo.toml")
>>> found = study.study_speeds(case, 22.0, 30.0, 4.0, [io.parse_limit("p2_kN=150")])
>>> with tempfile.TemporaryDirectory() as folder:
...     file = pathlib.Path(folder) / "speeds.h5"
...     io.write_speeds(file, case, found)
...     speeds = stored.read_speeds(file)
>>> speeds.limits[0].text
'P2 at most 150 kN'
>>> [round(speed, 1) for speed in speeds.column("speed_km_h").tolist()]
[79.2, 93.6, 108.0]
"""

from .comparison import ComparedCrossing, ComparisonFile, read_comparison
from .contact import ContactFile, read_contact
from .damage import DamageFile, read_damage
from .damage_places import Place, Stretch, most_wheels, place_of, place_on_map, stretches_above
from .damage_traffic import TrafficClass
from .datasets import Datasets, InputFile, kind_of, label_of, read_datasets
from .speeds import Change, LimitAnswer, SpeedsFile, read_speeds

__all__ = [
    "Change",
    "ComparedCrossing",
    "ComparisonFile",
    "ContactFile",
    "DamageFile",
    "Datasets",
    "InputFile",
    "LimitAnswer",
    "Place",
    "SpeedsFile",
    "Stretch",
    "TrafficClass",
    "kind_of",
    "label_of",
    "most_wheels",
    "place_of",
    "place_on_map",
    "read_comparison",
    "read_contact",
    "read_damage",
    "read_datasets",
    "read_speeds",
    "stretches_above",
]

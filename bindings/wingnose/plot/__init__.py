"""Sheets: every function draws on Axes and returns them, and never prints.

A passage: `force`, `wheel_path`, `sections_at`, `receptance`. A speed study: `force_against_speed`,
`dynamic_factor_against_speed`, `lost_contact_against_speed`, `against_speed`. A comparison of crossings: `paths`,
`envelopes`, `transfers`, `cumulative`, `differences`, `nose_load`. Damage of the steel: `damage_map`, `shakedown`,
`along`, `traffic_shares`. A sweep: `against_input`. A contact: `pressure_field`, `pressure_across`, `law_deviations`,
`creep_laws`. A track at rest: `stiffness_along`, `rails_at_rest`, `track_receptance`, `voids_closing`. A vehicle in space: `ride_plan`,
`guiding_forces`, `contacts_on_wheel`, `ride_section`.

Common parameters: `source` is an answer of the kind drawn (an ``xarray.DataTree``) or the file it is stored in, `ax`
where to draw; a new figure when left out. The Axes drawn on are returned, with units on both of them: lengths in mm
(stations in m where metres are shown), forces in kN, speeds in km/h. Values passed in as numbers are SI, as everywhere.
An answer of another kind is an InputError. A figure says at its foot when what it shows has a grave finding.
"""

from .comparison import cumulative, differences, envelopes, nose_load, paths, transfers
from .contact import law_deviations, pressure_across, pressure_field
from .creep import creep_law_differences, creep_laws
from .damage import along, damage_map, shakedown, traffic_shares
from .passage import force, receptance, sections_at, wheel_path
from .ride import contacts_on_wheel, guiding_forces, ride_plan, ride_section
from .speeds import against_speed, dynamic_factor_against_speed, force_against_speed, lost_contact_against_speed
from .sweep import against_input, inputs_of
from .track import rails_at_rest, stiffness_along, track_receptance, voids_closing

__all__ = [
    "against_input", "against_speed", "along", "contacts_on_wheel", "creep_law_differences", "creep_laws", "cumulative",
    "damage_map", "differences", "dynamic_factor_against_speed", "envelopes", "force", "force_against_speed",
    "guiding_forces", "inputs_of", "law_deviations", "lost_contact_against_speed", "nose_load", "paths",
    "pressure_across", "pressure_field", "rails_at_rest", "receptance", "ride_plan", "ride_section", "sections_at",
    "shakedown", "stiffness_along", "track_receptance", "traffic_shares", "transfers", "voids_closing", "wheel_path",
]  # fmt: skip

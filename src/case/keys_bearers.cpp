// Keys of [track.bearers], [[track.bearer]], [[track.void]] and [track.variation].
#include "keys.hpp"

namespace wingnose::cases {
namespace {

Bearers& bearers(Case& c) { return c.track.bearers; }
Bearer& all(Case& c) { return c.track.bearers.all; }
OtherBearer& other(OtherBearer& one) { return one; }
Bearer& shape(OtherBearer& one) { return one.bearer; }
std::vector<OtherBearer>& others(Case& c) { return c.track.bearers.other; }
VoidBelow& below(VoidBelow& one) { return one; }
std::vector<VoidBelow>& voids(Case& c) { return c.track.voids; }
SeatScatter& variation(Case& c) { return c.track.variation; }
std::string csv(Case& c) { return c.track.bearers.csv; }

// The same keys describe all bearers and one that differs.
template <auto part> std::vector<Key> bearer_keys(const std::string& bending) {
  return {
      key<part, &Bearer::length>("length_mm", "length of a bearer", bending),
      key<part, &Bearer::offset>("offset_mm", "its middle from the middle of the track, + outward over the crossing",
                                 bending),
      key<part, &Bearer::EI>("EI_MN_m2", "bending stiffness of a bearer", bending),
      key<part, &Bearer::depth>("depth_mm", "depth of a bearer, for the strain of its fibres", bending),
      key<part, &Bearer::width>("width_mm", "width of a bearer along the track"),
      key<part, &Bearer::pad_knee, &knee_range>("pad_knee_mm",
                                                "shortening beyond which a pad has another stiffness; absent: none"),
      key<part, &Bearer::pad_beyond>("pad_stiffness_beyond_MN_m", "stiffness of the pad beyond its knee"),
      key<part, &Bearer::ballast_knee, &knee_range>(
          "ballast_knee_mm", "compression beyond which the ballast has another stiffness; absent: none"),
      key<part, &Bearer::ballast_beyond>("ballast_stiffness_beyond_MN_m",
                                         "stiffness of the ballast beyond its knee, per seat"),
      key<part, &Bearer::clip_load, &clip_range>("clip_load_kN",
                                                 "the most a fastening pulls a lifting rail down; absent: any load"),
      key<part, &Bearer::under_sleeper_pad, &under_sleeper_range>(
          "under_sleeper_pad_N_mm3", "bedding modulus of an under-sleeper pad; absent: there is none"),
      key<part, &Bearer::under_sleeper_damping>("under_sleeper_damping_MNs_m3", "viscous damping of that pad"),
      key<part, &Bearer::unilateral>("unilateral", "whether the ballast lets go of a bearer that lifts"),
  };
}

} // namespace

void add_bearer_keys(Schema& schema) {
  add(schema, "track.bearers", "all bearers of a track that is a chain",
      {selecting(key<bearers, &Bearers::kind>(
           "kind", "what carries the rails; the mass and the ballast of a seat, given in [track], are those of half a "
                   "bearer of length_mm, over which bending ones have them spread")),
       file("csv",
            "bearers at places of their own: CSV with station_mm and any of length_mm, offset_mm, "
            "bearer_mass_kg, pad_stiffness_MN_m, ballast_stiffness_MN_m, gap_mm",
            {csv, read_bearers})},
      "chain");
  add(schema, "track.bearers", "", bearer_keys<all>("bending"));
  add(schema, "track.bearer", "a bearer that differs; absent values are those of [track.bearers]",
      {required(key<other, &OtherBearer::station>("station_m", "the bearer nearest to this station"))});
  add(schema, "track.bearer", "", bearer_keys<shape>(""));
  List list = list_of<others>("track.bearer", "bearers that differ", "chain");
  list.append = [](void* of) -> void* {
    Bearers& b = static_cast<Case*>(of)->track.bearers;
    return &b.other.emplace_back(OtherBearer{0.0, b.all});
  };
  schema.lists.push_back(list);

  add(schema, "track.void", "a bearer over a void, with track.method = \"chain\"",
      {required(key<below, &VoidBelow::station>("station_m", "the bearer nearest to this station")),
       required(key<below, &VoidBelow::gap>("gap_mm", "gap below it before the track's own weight acts")),
       key<below, &VoidBelow::from, &across_range>(
           "from_mm", "where across the track it begins under a bending bearer; absent: at its end"),
       key<below, &VoidBelow::to, &across_range>("to_mm", "where it ends; absent: at the other end of the bearer")});
  schema.lists.push_back(list_of<voids>("track.void", "bearers over voids", "chain"));

  add(schema, "track.variation", "stiffness drawn from bearer to bearer, lognormal about the values of [track]",
      {key<variation, &SeatScatter::ballast>("ballast", "coefficient of variation of the ballast"),
       key<variation, &SeatScatter::pad>("pad", "coefficient of variation of the pads"),
       key<variation, &SeatScatter::correlation>("correlation_m",
                                                 "distance over which the correlation of two bearers falls to 1/e"),
       key<variation, &SeatScatter::seed>("seed", "another one draws another track")});
}

} // namespace wingnose::cases

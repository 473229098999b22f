// Named constants that published standards attach to the P1/P2 formulas.
#include "wingnose/closedform/joint_forces.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>

namespace wingnose::closedform {

const std::vector<ConstantSet>& constant_sets() {
  static const std::vector<ConstantSet> sets = {
      {"GM/TT0088",
       {245.0, 62.0e6, 55.4e3},
       0.020,
       322.0e3,
       "GM/TT0088 (1993), Permissible track forces for railway vehicles, clause 6; carried into its successor "
       "GM/RT2141",
       "from memory, high confidence"},
      {"ROA-AS7508",
       {133.0, 109.0e6, 52.0e3},
       0.014,
       295.0e3,
       "ROA manual and AS 7508, Track forces and stresses; total dip angle quoted between 0.010 and 0.014, limit "
       "between 200 and 230 kN for locomotives and 295 kN for heavy freight",
       "from memory, low confidence: check against the standard before use"},
  };
  return sets;
}

const ConstantSet& constant_set(std::string_view name) {
  const std::vector<ConstantSet>& sets = constant_sets();
  const auto found =
      std::find_if(sets.begin(), sets.end(), [name](const ConstantSet& set) { return set.name == name; });
  if (found != sets.end())
    return *found;
  std::string names;
  for (const ConstantSet& set : sets)
    names += (names.empty() ? "" : ", ") + set.name;
  throw InputError("P1/P2 constant set", "\"" + std::string(name) + "\"", names,
                   "Name one of these or give m_T2, k_T2 and c_T2.");
}

} // namespace wingnose::closedform

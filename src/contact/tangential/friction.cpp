#include "wingnose/contact/tangential/friction.hpp"

#include "wingnose/words/error.hpp"

namespace wingnose::contact {

void check(const Friction& f) {
  if (!(f.mu0 > 0.0 && f.mu0 <= 1.5)) {
    throw InputError("friction coefficient mu0", number(f.mu0), "above 0 and up to 1.5",
                     "Dry rail has about 0.3 to 0.55, wet rail 0.1 to 0.3.");
  }
  if (!(f.A > 0.0 && f.A <= 1.0)) {
    throw InputError("friction ratio A", number(f.A), "above 0 and up to 1",
                     "It is the friction at very high slip speed over mu0; 1 keeps friction constant.");
  }
  if (!(f.B >= 0.0 && std::isfinite(f.B))) {
    throw InputError("friction decrease B", number(f.B) + " s/m", "0 or more", "0 keeps friction constant.");
  }
}

} // namespace wingnose::contact

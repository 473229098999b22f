// What Boost.Odeint asks of a stepper's types; the steppers of a passage are of second order in their step.
#pragma once

#include <boost/numeric/odeint/stepper/stepper_categories.hpp>

namespace wingnose::passage {

template <class Moving> struct SecondOrderStepper {
  using state_type = Moving;
  using deriv_type = Moving;
  using value_type = double;
  using time_type = double;
  using order_type = unsigned short;
  using stepper_category = boost::numeric::odeint::stepper_tag;
  [[nodiscard]] static order_type order() { return 2; }
};

} // namespace wingnose::passage

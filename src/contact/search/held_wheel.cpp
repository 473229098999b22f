#include "wingnose/contact/search/held_wheel.hpp"

#include "gap_across.hpp"
#include "rolling_envelope.hpp"

#include "wingnose/words/frame.hpp"

#include <algorithm>
#include <utility>

namespace wingnose::contact {

namespace {

// Counted outward on the side of the body, as its surface is.
Attitude outward(Attitude a, layout::Side side) {
  if (side == layout::Side::opposite) {
    a.lateral_offset = -a.lateral_offset;
    a.roll = -a.roll;
    a.yaw = -a.yaw;
  }
  return a;
}

} // namespace

struct HeldWheel::Parts {
  WheelSurface wheel;
  std::vector<layout::Body> bodies;
  Attitude attitude;
  Stretch stretch;
  std::vector<SampledWheel> placed; // over each body
  std::vector<RollingEnvelope> envelopes;

  Parts(const profile::WheelProfile& profile, std::vector<layout::Body> of, const Attitude& a, const Stretch& along)
      : wheel(profile, a.wheel_radius), bodies(std::move(of)), attitude(a), stretch(along) {
    placed.reserve(bodies.size());
    envelopes.reserve(bodies.size());
    for (const layout::Body& body : bodies) {
      const Attitude held = outward(attitude, body.side);
      placed.emplace_back(PlacedWheel(wheel, taping_line_y + held.lateral_offset, held.roll));
      envelopes.emplace_back(body.surface, placed.back(), held.yaw, stretch);
    }
  }
};

HeldWheel::HeldWheel(const profile::WheelProfile& wheel, std::vector<layout::Body> bodies, const Attitude& attitude,
                     const Stretch& stretch)
    : parts_(std::make_unique<const Parts>(wheel, std::move(bodies), attitude, stretch)) {}

HeldWheel::HeldWheel(HeldWheel&&) noexcept = default;
HeldWheel& HeldWheel::operator=(HeldWheel&&) noexcept = default;
HeldWheel::~HeldWheel() = default;

const std::vector<layout::Body>& HeldWheel::bodies() const { return parts_->bodies; }
const Attitude& HeldWheel::attitude() const { return parts_->attitude; }
const Stretch& HeldWheel::stretch() const { return parts_->stretch; }

Touch HeldWheel::touch(std::size_t body, double x) const {
  return parts_->envelopes[body].touch(std::clamp(x, parts_->stretch.from, parts_->stretch.to));
}

void HeldWheel::look(std::size_t body, double x, GapLine& gap) const {
  const Parts& p = *parts_;
  const double station = std::clamp(x, p.stretch.from, p.stretch.to);
  read_gap_at(p.envelopes[body], station, gap);
}

} // namespace wingnose::contact

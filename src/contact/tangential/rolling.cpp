#include "wingnose/contact/tangential/rolling.hpp"

#include "wingnose/words/error.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace wingnose::contact {
namespace {

using Eigen::Vector2d;

// Rigid slip of every cell over the step (m) that the matrix speaks of.
Eigen::VectorXd rigid_slip(const RollingMatrix& m, const Creepage& c) {
  Eigen::VectorXd w(static_cast<Eigen::Index>(2 * m.mesh.cells()));
  for (const RollingStrip& s : m.mesh.strips) {
    for (std::size_t k = 0; k < s.cells; ++k) {
      const bool rolls = m.sliding == Sliding::rolling;
      // A particle's mean position while it rolls through its step is half a cell upstream.
      const double x = s.lead - (static_cast<double>(k) + (rolls ? 0.0 : 0.5)) * s.cell;
      const double step = rolls ? s.cell : 1.0;
      const auto i = static_cast<Eigen::Index>(2 * (s.first + k));
      w[i] = step * (c.longitudinal - c.spin * s.y);
      w[i + 1] = step * (c.lateral + c.spin * x);
    }
  }
  return w;
}

// Where Newton's steps begin: tractions that grow along each strip as the rigid slip does, by one compliance for the
// whole patch (that which leaves least slip), cut to the bound as in the simplified theory. From no traction at all the
// first step would have every cell stick, the largest system of all.
Eigen::VectorXd marched(const RollingMatrix& m, const Eigen::VectorXd& w, double mu) {
  Eigen::VectorXd p = Eigen::VectorXd::Zero(w.size());
  const auto march = [&](double per_slip, bool cut) {
    for (const RollingStrip& s : m.mesh.strips) {
      Vector2d here = Vector2d::Zero();
      for (std::size_t cell = s.first; cell < s.first + s.cells; ++cell) {
        const auto i = static_cast<Eigen::Index>(2 * cell);
        here += per_slip * w.segment<2>(i);
        const double size = here.norm(), bound = mu * m.mesh.pressure[cell];
        if (cut && size > bound) {
          here *= bound / size;
        }
        p.segment<2>(i) = here;
      }
    }
  };
  march(1.0, false);
  const Eigen::VectorXd elastic = m.slip * p;
  const double scale = elastic.squaredNorm();
  march(scale > 0.0 ? -w.dot(elastic) / scale : 0.0, true);
  return p;
}

RollingField collect(const RollingMatrix& m, const Eigen::VectorXd& p, const Eigen::VectorXd& slip, double mu) {
  RollingField f{};
  double area = 0.0, sliding_area = 0.0;
  for (const RollingStrip& s : m.mesh.strips) {
    for (std::size_t k = 0; k < s.cells; ++k) {
      const std::size_t cell = s.first + k;
      const auto i = static_cast<Eigen::Index>(2 * cell);
      const double x = s.lead - (static_cast<double>(k) + 0.5) * s.cell, dA = s.cell * s.width;
      const double step = m.sliding == Sliding::rolling ? s.cell : 1.0;
      const bool slides = p.segment<2>(i).norm() >= mu * m.mesh.pressure[cell] * (1.0 - 1e-9);
      const Vector2d relative = slides ? Vector2d(slip.segment<2>(i) / step) : Vector2d::Zero();
      f.x.push_back(x);
      f.y.push_back(s.y);
      f.traction_x.push_back(p[i]);
      f.traction_y.push_back(p[i + 1]);
      f.slip_x.push_back(relative.x());
      f.slip_y.push_back(relative.y());
      f.slides.push_back(slides ? 1.0 : 0.0);
      f.force.longitudinal += dA * p[i];
      f.force.lateral += dA * p[i + 1];
      f.force.moment += dA * (x * p[i + 1] - s.y * p[i]);
      // Trapezium rule over the particle's way from the cell before, or from the free leading edge.
      const Vector2d before = k == 0 ? Vector2d::Zero() : Vector2d(p.segment<2>(i - 2));
      f.friction_loss -=
          0.5 * dA * (p.segment<2>(i) + (m.sliding == Sliding::rolling ? before : p.segment<2>(i))).dot(relative);
      area += dA;
      sliding_area += slides ? dA : 0.0;
    }
  }
  f.slip_area = sliding_area / area;
  return f;
}

void check(double mu, const Creepage& c, const RollingAccuracy& accuracy) {
  if (!(mu > 0.0 && mu <= 1.5)) {
    throw InputError("friction coefficient", number(mu), "above 0 and up to 1.5", "Dry rail has about 0.3 to 0.55.");
  }
  if (!std::isfinite(c.longitudinal + c.lateral + c.spin)) {
    throw InputError("creepage", number(c.longitudinal + c.lateral + c.spin), "finite numbers",
                     "Check the kinematics of the wheel.");
  }
  if (!(accuracy.tolerance > 0.0 && accuracy.tolerance < 1.0 && accuracy.most_steps > 0)) {
    throw InputError("tolerance of the rolling solver", number(accuracy.tolerance), "above 0 and below 1",
                     "1e-7 is far below the error of the mesh.");
  }
}

// A Newton step. In a cell, q = p - r slip tells stick (|q| <= bound: the slip has to vanish, two unknowns) from slip
// (p = bound q / |q|: the part along q is known, one unknown across it). Alart and Curnier 1991 write friction so.
class Newton {
public:
  Newton(const RollingMatrix& matrix, double mu) : m_(matrix), mu_(mu), unknowns_(2 * matrix.mesh.cells()) {}

  // The change of p.
  Eigen::VectorXd step(const Eigen::VectorXd& p, const Eigen::VectorXd& slip) {
    Eigen::VectorXd change = Eigen::VectorXd::Zero(p.size());
    sort_cells(p, slip, change);
    const auto size = static_cast<Eigen::Index>(count_);
    const Eigen::VectorXd residual = -(slip + m_.slip * change);
    // Single precision halves the work of the solve; the next step starts from the residual in double precision, so the
    // digits lost here are won back there.
    Eigen::MatrixXf K(size, size); // transposed: filled row by row
    Eigen::VectorXf right(size);
    for (Eigen::Index k = 0; k < size; ++k) {
      const Unknown& u = unknowns_[static_cast<std::size_t>(k)];
      row_.noalias() = u.across.transpose() * m_.slip.middleRows<2>(u.at);
      const double unit = 1.0 / (row_.segment<2>(u.at).dot(u.across) + u.give); // metres per pascal are no floats
      for (Eigen::Index l = 0; l < size; ++l) {
        const Unknown& v = unknowns_[static_cast<std::size_t>(l)];
        K(l, k) = static_cast<float>(unit * row_.segment<2>(v.at).dot(v.across));
      }
      K(k, k) = 1.0F;
      right[k] = static_cast<float>(unit * (u.across.dot(residual.segment<2>(u.at)) + u.extra));
    }
    const Eigen::VectorXf z = K.partialPivLu().transpose().solve(right);
    for (Eigen::Index k = 0; k < size; ++k) {
      const Unknown& u = unknowns_[static_cast<std::size_t>(k)];
      change.segment<2>(u.at) += static_cast<double>(z[k]) * u.across;
    }
    return change;
  }

private:
  struct Unknown {
    Eigen::Index at; // first component of the cell
    Vector2d across; // unit vector of the change
    double give;     // m/Pa, slip over traction in a cell that slips
    double extra;    // m
  };

  void sort_cells(const Eigen::VectorXd& p, const Eigen::VectorXd& slip, Eigen::VectorXd& known) {
    count_ = 0;
    for (std::size_t cell = 0; cell < m_.mesh.cells(); ++cell) {
      const auto i = static_cast<Eigen::Index>(2 * cell);
      const double bound = mu_ * m_.mesh.pressure[cell];
      // Small against the compliance of the patch: a large r would throw a cell from one slip into the opposite one.
      const double r = 0.2 / (m_.slip(i, i) + m_.slip(i + 1, i + 1));
      const Vector2d own = p.segment<2>(i), q = own - r * slip.segment<2>(i);
      const double size = q.norm();
      if (bound <= 0.0) {
        known.segment<2>(i) = -own;
      } else if (size <= bound) {
        unknowns_[count_++] = {i, Vector2d::UnitX(), 0.0, 0.0};
        unknowns_[count_++] = {i, Vector2d::UnitY(), 0.0, 0.0};
      } else {
        const Vector2d along = q / size, across(-along.y(), along.x());
        known.segment<2>(i) = (bound - own.dot(along)) * along;
        unknowns_[count_++] = {i, across, (size - bound) / (bound * r),
                               across.dot(slip.segment<2>(i)) - size / (bound * r) * across.dot(own)};
      }
    }
  }

  const RollingMatrix& m_;
  double mu_;
  std::vector<Unknown> unknowns_;
  std::size_t count_ = 0;
  Eigen::RowVectorXd row_;
};

} // namespace

RollingField rolling_contact_field(const RollingMatrix& m, double mu, const Creepage& creep,
                                   const RollingAccuracy& accuracy) {
  check(mu, creep, accuracy);
  const Eigen::VectorXd w = rigid_slip(m, creep);
  Eigen::VectorXd p = m.sliding == Sliding::rolling ? marched(m, w, mu) : Eigen::VectorXd::Zero(w.size()).eval();
  const double highest = mu * *std::max_element(m.mesh.pressure.begin(), m.mesh.pressure.end());
  Newton newton(m, mu);
  for (int step = 1; step <= accuracy.most_steps; ++step) {
    const Eigen::VectorXd slip = w + m.slip * p;
    const Eigen::VectorXd change = newton.step(p, slip);
    p += change;
    if (change.cwiseAbs().maxCoeff() <= accuracy.tolerance * highest) {
      RollingField field = collect(m, p, w + m.slip * p, mu);
      field.steps = step;
      return field;
    }
  }
  throw ComputeError("the rolling contact did not settle within " + std::to_string(accuracy.most_steps) +
                     " Newton steps; choose a coarser grid or smaller creepages.");
}

} // namespace wingnose::contact

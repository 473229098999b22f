// The loops over track modes: all the arithmetic of a time step that matters. Complex numbers are kept as separate real
// and imaginary arrays so that compilers vectorise; on x86-64 the best instruction set is chosen when the program
// starts.
#pragma once

#include <array>

namespace wingnose::passage::kernels {

// Arrays of one track and step, [n] each, n a multiple of 8.
struct Modes {
  int n;
  const double *decay_re, *decay_im;
};
// A wheel's place on the track: cubic mode-shape coefficients of its element ([4 * n] each) and its local coordinate in
// [0, 1].
struct Place {
  const double *shape_re, *shape_im;
  double s;
};

// y <- E y + theta f, then theta <- shape at `place`; returns Re sum theta y, the deflection (m, downward) at the new
// place without the load's own contribution within the step.
double advance(const Modes& modes, double* y_re, double* y_im, double* theta_re, double* theta_im, double force,
               const Place& place);

// The same in parts, for several wheels on one track.
void decay(const Modes& modes, double* y_re, double* y_im);
void add_force(int n, double* y_re, double* y_im, const double* theta_re, const double* theta_im, double force);
double shape_and_deflection(int n, const double* y_re, const double* y_im, double* theta_re, double* theta_im,
                            const Place& place);

// Re sum a b of two complex arrays.
double dot(int n, const double* a_re, const double* a_im, const double* b_re, const double* b_im);
// Re sum p y and Re sum q y in one pass over y.
std::array<double, 2> probe_pair(int n, const double* y_re, const double* y_im, const double* p_re, const double* p_im,
                                 const double* q_re, const double* q_im);

// Eight cases in one pass: y is [n][8], forces and deflections [8]; theta is shared. Each case has the bits that
// advance() gives it.
void advance8(const Modes& modes, double* y_re, double* y_im, double* theta_re, double* theta_im, const double* force,
              const Place& place, double* deflection);

// Exact steps of eight vehicles of one wheel, or of one (vehicle_step.hpp), [entry][lane]; idle lanes stay at zero.
struct Vehicles {
  int motions;                                        // displacements and velocities
  const double *transition, *input_begin, *input_end; // [motions * motions], [motions], [motions]
  const double* static_load;                          // N, [lane]
};
// next <- A now + B0 (F - F0), then at the end of the step now <- next + B1 (F - F0).
void begin_vehicle(const Vehicles& vehicles, const double* now, const double* force, double* next);
void begin_vehicles8(const Vehicles& vehicles, const double* now, const double* force, double* next);
void end_vehicle(const Vehicles& vehicles, const double* next, const double* force, double* now);
void end_vehicles8(const Vehicles& vehicles, const double* next, const double* force, double* now);

// Contact of eight wheels at once, or of the first alone; every lane is solved as solve_contact() would
// (contact_solve.hpp) and rests once it has converged, so that it gives the same bits whatever runs beside it. Idle
// lanes: negative approach, compliance 1.
struct ContactLanes {
  double approach[2][8];     // m, [body][lane], without this step's force
  double c0[2][8];           // contact::ForceLaw of each body
  double c1[2][8], c2[2][8]; // further terms of these laws
  double reach[8];           // m, of these laws
  double compliance[8];      // m/N
  double force[8];           // N, first guess in, total out
  double body_force[2][8];   // N, out
};
void spoil(ContactLanes& lanes); // NaN everywhere
// further_terms: false when all laws are Hertz's, c1 = c2 = 0 without end; these and the reach are then not read.
void solve_contact8(ContactLanes& lanes, bool further_terms);
void solve_contact1(ContactLanes& lanes, bool further_terms); // the first lane only

} // namespace wingnose::passage::kernels

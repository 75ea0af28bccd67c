// SPDX-License-Identifier: MIT
//
// Physical quantities as types. Each holds one double in SI units and can only be made and read
// through named doors (`Length::mm(12.5)`, `l.in_mm()`), so no raw number crosses a stage with its
// unit left to memory. Torque is not energy, turns are not a bare number, and a product between
// different quantities exists only where it is written out below.
//
// Exact factors: 1 in = 25.4 mm, 1 oz = 28.349523125 g, g_n = 9.80665 m/s2 [units].
#pragma once

#include <cmath>
#include <compare>
#include <numbers>

namespace loopledger {

/// What all quantities can do: add, subtract, scale, compare, and divide by their like.
template <class Self>
class Quantity {
 public:
  static constexpr Self si(double value) {
    Self q;
    q.si_ = value;
    return q;
  }
  [[nodiscard]] constexpr double in_si() const { return si_; }
  [[nodiscard]] bool finite() const { return std::isfinite(si_); }

  friend constexpr Self operator+(Self a, Self b) { return si(a.si_ + b.si_); }
  friend constexpr Self operator-(Self a, Self b) { return si(a.si_ - b.si_); }
  friend constexpr Self operator-(Self a) { return si(-a.si_); }
  friend constexpr Self operator*(Self a, double s) { return si(a.si_ * s); }
  friend constexpr Self operator*(double s, Self a) { return si(a.si_ * s); }
  friend constexpr Self operator/(Self a, double s) { return si(a.si_ / s); }
  friend constexpr double operator/(Self a, Self b) { return a.si_ / b.si_; }
  friend constexpr auto operator<=>(Self a, Self b) { return a.si_ <=> b.si_; }
  friend constexpr bool operator==(Self a, Self b) { return a.si_ == b.si_; }
  constexpr Self& operator+=(Self b) {
    si_ += b.si_;
    return static_cast<Self&>(*this);
  }
  constexpr Self& operator-=(Self b) {
    si_ -= b.si_;
    return static_cast<Self&>(*this);
  }

 private:
  double si_ = 0;
};

class Length : public Quantity<Length> {
 public:
  static constexpr Length m(double v) { return si(v); }
  static constexpr Length mm(double v) { return si(v * 1e-3); }
  static constexpr Length in(double v) { return si(v * 0.0254); }
  [[nodiscard]] constexpr double in_m() const { return in_si(); }
  [[nodiscard]] constexpr double in_mm() const { return in_si() / 1e-3; }
  [[nodiscard]] constexpr double in_in() const { return in_si() / 0.0254; }
};

class Area : public Quantity<Area> {
 public:
  static constexpr Area mm2(double v) { return si(v * 1e-6); }
  [[nodiscard]] constexpr double in_mm2() const { return in_si() / 1e-6; }
};

class Mass : public Quantity<Mass> {
 public:
  static constexpr Mass kg(double v) { return si(v); }
  static constexpr Mass g(double v) { return si(v * 1e-3); }
  static constexpr Mass mg(double v) { return si(v * 1e-6); }
  static constexpr Mass oz(double v) { return si(v * 0.028349523125); }
  [[nodiscard]] constexpr double in_g() const { return in_si() / 1e-3; }
  [[nodiscard]] constexpr double in_mg() const { return in_si() / 1e-6; }
};

class LinearDensity : public Quantity<LinearDensity> {
 public:
  static constexpr LinearDensity g_per_m(double v) { return si(v * 1e-3); }
  [[nodiscard]] constexpr double in_g_per_m() const { return in_si() / 1e-3; }
};

class Density : public Quantity<Density> {
 public:
  static constexpr Density g_per_cm3(double v) { return si(v * 1e3); }
  [[nodiscard]] constexpr double in_g_per_cm3() const { return in_si() / 1e3; }
};

class Pressure : public Quantity<Pressure> {
 public:
  static constexpr Pressure mpa(double v) { return si(v * 1e6); }
  [[nodiscard]] constexpr double in_mpa() const { return in_si() / 1e6; }
};

class Torque : public Quantity<Torque> {
 public:
  static constexpr double kNewtonMetrePerGfCm = 9.80665e-5;
  static constexpr double kNewtonMetrePerOzfIn = 0.028349523125 * 9.80665 * 0.0254;
  static constexpr Torque mnm(double v) { return si(v * 1e-3); }
  static constexpr Torque gf_cm(double v) { return si(v * kNewtonMetrePerGfCm); }
  static constexpr Torque ozf_in(double v) { return si(v * kNewtonMetrePerOzfIn); }
  [[nodiscard]] constexpr double in_mnm() const { return in_si() / 1e-3; }
  [[nodiscard]] constexpr double in_gf_cm() const { return in_si() / kNewtonMetrePerGfCm; }
  [[nodiscard]] constexpr double in_ozf_in() const { return in_si() / kNewtonMetrePerOzfIn; }
};

class Energy : public Quantity<Energy> {
 public:
  static constexpr Energy joule(double v) { return si(v); }
  [[nodiscard]] constexpr double in_joule() const { return in_si(); }
};

/// Energy for each mass of rubber.
class SpecificEnergy : public Quantity<SpecificEnergy> {
 public:
  static constexpr SpecificEnergy joule_per_g(double v) { return si(v * 1e3); }
  [[nodiscard]] constexpr double in_joule_per_g() const { return in_si() / 1e3; }
};

/// Revolutions of the motor, not radians and not a bare number.
class Turns : public Quantity<Turns> {
 public:
  static constexpr Turns of(double v) { return si(v); }
  [[nodiscard]] constexpr double count() const { return in_si(); }
};

class Duration : public Quantity<Duration> {
 public:
  static constexpr Duration s(double v) { return si(v); }
  static constexpr Duration min(double v) { return si(v * 60); }
  static constexpr Duration h(double v) { return si(v * 3600); }
  [[nodiscard]] constexpr double in_s() const { return in_si(); }
  [[nodiscard]] constexpr double in_min() const { return in_si() / 60; }
  [[nodiscard]] constexpr double in_h() const { return in_si() / 3600; }
};

/// A share of something: 0.05 is 5 %.
class Share : public Quantity<Share> {
 public:
  static constexpr Share ratio(double v) { return si(v); }
  static constexpr Share percent(double v) { return si(v / 100); }
  [[nodiscard]] constexpr double as_ratio() const { return in_si(); }
  [[nodiscard]] constexpr double in_percent() const { return in_si() * 100; }
};

/// A point on the Celsius scale; it can only be compared and subtracted by hand.
class Temperature {
 public:
  static constexpr Temperature deg_c(double v) {
    Temperature t;
    t.deg_c_ = v;
    return t;
  }
  [[nodiscard]] constexpr double in_deg_c() const { return deg_c_; }
  // NOLINTNEXTLINE(modernize-use-nullptr): the 0 is the compiler's own
  friend constexpr auto operator<=>(Temperature, Temperature) = default;

 private:
  double deg_c_ = 0;
};

constexpr Mass operator*(LinearDensity d, Length l) { return Mass::si(d.in_si() * l.in_si()); }
constexpr Mass operator*(Length l, LinearDensity d) { return d * l; }
constexpr Length operator/(Mass m, LinearDensity d) { return Length::si(m.in_si() / d.in_si()); }
constexpr LinearDensity operator/(Mass m, Length l) {
  return LinearDensity::si(m.in_si() / l.in_si());
}
constexpr Area operator*(Length a, Length b) { return Area::si(a.in_si() * b.in_si()); }
constexpr LinearDensity operator*(Area a, Density d) {
  return LinearDensity::si(a.in_si() * d.in_si());
}
constexpr Area operator/(LinearDensity l, Density d) { return Area::si(l.in_si() / d.in_si()); }
constexpr Mass operator*(Mass m, Share s) { return m * s.as_ratio(); }
constexpr SpecificEnergy operator/(Energy e, Mass m) {
  return SpecificEnergy::si(e.in_si() / m.in_si());
}
inline Length sqrt(Area a) { return Length::si(std::sqrt(a.in_si())); }

/// A number of turns not to be passed, as people are told it: whole, never rounded up.
inline Turns whole_down(Turns n) { return Turns::of(std::floor(n.count())); }

/// Work done by a constant torque over a number of turns: 2 pi Q N.
constexpr Energy work(Torque q, Turns n) {
  return Energy::si(2 * std::numbers::pi * q.in_si() * n.count());
}

/// A value with its standard uncertainty (one sigma, first order). Shared inputs are carried from
/// the inputs, never by chaining results, so there is deliberately no arithmetic here.
template <class Q>
struct Uncertain {
  Q value{};
  Q u{};
  friend constexpr bool operator==(const Uncertain&, const Uncertain&) = default;
};

/// An estimate with its 95 % interval.
template <class Q>
struct Estimate {
  Q value{};
  Q low{};
  Q high{};
  friend constexpr bool operator==(const Estimate&, const Estimate&) = default;
};

}  // namespace loopledger

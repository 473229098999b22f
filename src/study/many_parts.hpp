// What cases share, made on first need by whichever thread comes first and dropped after its last use.
#pragma once

#include "wingnose/study/many.hpp"

#include <deque>
#include <exception>
#include <mutex>
#include <unordered_map>
#include <utility>

namespace wingnose::study {

template <class Value> using Made = std::shared_ptr<const Value>;

// One shared part. Its maker may fail; then every user is told the same.
template <class Value> class Part {
public:
  // Waits while another thread makes the part.
  template <class Make> Made<Value> get(const Make& make) {
    const std::scoped_lock lock(mutex_);
    return made(make);
  }
  // Makes the part unless another thread is just doing so.
  template <class Make> void help(const Make& make) {
    const std::unique_lock lock(mutex_, std::try_to_lock);
    if (lock.owns_lock() && !value_ && !failure_) {
      try {
        (void)made(make);
      } catch (...) { // told by get()
      }
    }
  }
  void drop() {
    const std::scoped_lock lock(mutex_);
    value_.reset();
  }
  [[nodiscard]] bool has_value() const { return value_ != nullptr; }

  std::atomic<std::size_t> uses{0};  // still to come
  const Case* of = nullptr;          // a case the part belongs to
  std::unique_ptr<const Case> kept;  // the same, once the caller's cases may be gone
  std::size_t first = 0, second = 0; // parts it is made of

private:
  template <class Make> Made<Value> made(const Make& make) {
    if (failure_) {
      std::rethrow_exception(failure_);
    }
    if (!value_) {
      try {
        value_ = make();
      } catch (const std::bad_alloc&) {
        throw; // may be gone next time
      } catch (...) {
        failure_ = std::current_exception();
        throw;
      }
    }
    return value_;
  }

  std::mutex mutex_;
  Made<Value> value_;
  std::exception_ptr failure_;
};

// All parts of one kind. Planning (find, keep) is done by one thread before and after the others work.
template <class Value> class Pool {
public:
  explicit Pool(std::size_t keep) : keep_(keep) {}

  // Index of the part of case c: one that `same` accepts, else a new one. hash: equal for parts that are the same.
  template <class Same> std::size_t find(std::size_t hash, const Case& c, const Same& same) {
    const auto [begin, end] = index_.equal_range(hash);
    for (auto i = begin; i != end; ++i) {
      if (same(parts_[i->second])) {
        ++parts_[i->second].uses;
        return i->second;
      }
    }
    Part<Value>& part = parts_.emplace_back();
    part.of = &c;
    part.uses = 1;
    index_.emplace(hash, parts_.size() - 1);
    return parts_.size() - 1;
  }
  [[nodiscard]] Part<Value>& operator[](std::size_t i) { return parts_[i]; }
  void release(std::size_t i) {
    if (--parts_[i].uses == 0 && idle_.fetch_add(1) >= keep_) {
      parts_[i].drop();
    }
  }
  // After planning: parts kept from before that nobody wants now make room for new ones.
  void forget_unused() {
    for (Part<Value>& part : parts_) {
      if (part.uses == 0) {
        part.drop();
      }
    }
    idle_ = 0;
  }
  // After the work: parts still held are kept with a case of their own, the list of all others is cleared.
  void settle() {
    std::deque<Part<Value>> rest;
    std::unordered_multimap<std::size_t, std::size_t> index;
    parts_.swap(rest);
    index_.swap(index);
    for (const auto& [hash, i] : index) {
      Part<Value>& old = rest[i];
      if (old.has_value() && parts_.size() < keep_) {
        auto c = old.kept ? std::move(old.kept) : std::make_unique<const Case>(*old.of);
        Part<Value>& part = parts_.emplace_back();
        (void)part.get([&] { return old.get([]() -> Made<Value> { return nullptr; }); });
        part.of = c.get();
        part.kept = std::move(c);
        index_.emplace(hash, parts_.size() - 1);
      }
    }
  }
  void clear() {
    parts_.clear();
    index_.clear();
    idle_ = 0;
  }

private:
  std::deque<Part<Value>> parts_;
  std::unordered_multimap<std::size_t, std::size_t> index_;
  std::size_t keep_;
  std::atomic<std::size_t> idle_{0};
};

// What passages of cases with the same path, contact, track and vehicle share.
struct Prototype {
  Made<Geometry> geometry;
  Made<passage::Plan> plan;
};

struct TrackWithSteps {
  std::shared_ptr<const track::ModalTrack> track;
  std::shared_ptr<const passage::StepTable> steps;
};

struct SharedParts::Pools {
  Pool<track::ModalTrack> tracks{2};
  Pool<TrackWithSteps> tables{2};
  Pool<Geometry> geometries{64};
  Pool<Prototype> prototypes{0};
};

// What decides whether two cases share a part.
[[nodiscard]] bool same_track(const Case& a, const Case& b);
[[nodiscard]] bool same_geometry(const Case& a, const Case& b);
[[nodiscard]] std::size_t track_hash(const Case& c);
[[nodiscard]] std::size_t geometry_hash(const Case& c);

// Where one case finds its parts.
struct Places {
  std::size_t track = 0, table = 0, geometry = 0, prototype = 0;
};
[[nodiscard]] Places places(SharedParts::Pools& pools, const Case& c); // throws InputError
[[nodiscard]] Made<TrackWithSteps> table_of(SharedParts::Pools& pools, const Places& at, const Case& c);
void help_geometry(SharedParts::Pools& pools, const Places& at, const Case& c);
[[nodiscard]] Made<Prototype> prototype_of(SharedParts::Pools& pools, const Places& at, const Case& c);
void release(SharedParts::Pools& pools, const Places& at);

} // namespace wingnose::study

// What cases share, made on first need by whichever thread comes first and dropped after its last use.
#pragma once

#include "wingnose/study/many.hpp"

#include <deque>
#include <exception>
#include <mutex>
#include <unordered_map>
#include <utility>

namespace wingnose::study {

// One shared part. Its maker may fail; then every user is told the same.
template <class Value> class Part {
public:
  using Pointer = std::shared_ptr<const Value>;
  // Waits while another thread makes the part.
  template <class Make> Pointer get(const Make& make) {
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
  [[nodiscard]] const Pointer& value() const { return value_; } // of a part nobody works on
  void keep(Pointer value) { value_ = std::move(value); }

  std::atomic<std::size_t> uses{0}; // still to come

private:
  template <class Make> Pointer made(const Make& make) {
    if (failure_) {
      std::rethrow_exception(failure_);
    }
    if (!value_) {
      try {
        value_ = std::make_shared<const Value>(make());
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
  Pointer value_;
  std::exception_ptr failure_;
};

// All parts of one kind, each with the key it is shared by: what it is made of, and nothing else reaches its maker.
// Planning (find, keep) is done by one thread before and after the others work.
template <class Key, class Value> class Pool {
public:
  explicit Pool(std::size_t keep) : keep_(keep) {}

  // Index of the part with this key. hash: equal for equal keys.
  std::size_t find(std::size_t hash, const Key& key) {
    const auto [begin, end] = index_.equal_range(hash);
    for (auto i = begin; i != end; ++i) {
      if (keys_[i->second] == key) {
        ++parts_[i->second].uses;
        return i->second;
      }
    }
    keys_.push_back(key);
    parts_.emplace_back().uses = 1;
    index_.emplace(hash, parts_.size() - 1);
    return parts_.size() - 1;
  }
  [[nodiscard]] Part<Value>& operator[](std::size_t i) { return parts_[i]; }
  [[nodiscard]] const Key& key(std::size_t i) const { return keys_[i]; }
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
  // After the work: parts still held are kept, the list of all others is cleared.
  void keep_for_next_call() {
    std::deque<Part<Value>> parts;
    std::deque<Key> keys;
    std::unordered_multimap<std::size_t, std::size_t> index;
    parts_.swap(parts);
    keys_.swap(keys);
    index_.swap(index);
    for (const auto& [hash, i] : index) {
      if (parts[i].value() != nullptr && parts_.size() < keep_) {
        keys_.push_back(std::move(keys[i]));
        parts_.emplace_back().keep(parts[i].value());
        index_.emplace(hash, parts_.size() - 1);
      }
    }
  }
  void clear() {
    parts_.clear();
    keys_.clear();
    index_.clear();
    idle_ = 0;
  }

private:
  std::deque<Part<Value>> parts_;
  std::deque<Key> keys_;
  std::unordered_multimap<std::size_t, std::size_t> index_;
  std::size_t keep_;
  std::atomic<std::size_t> idle_{0};
};

using SharedTrack = std::shared_ptr<const track::ModalTrack>;
struct TableKey {
  std::size_t track; // index of a track
  double step;       // s
  [[nodiscard]] friend bool operator==(const TableKey&, const TableKey&) = default;
};
struct TrackWithSteps {
  SharedTrack track;
  std::shared_ptr<const passage::StepTable> steps;
};

// The vehicle belongs to the key also because one that cannot be assembled must not spoil the cases of others.
struct PlanKey {
  std::size_t geometry, table; // indices
  contact::Elastic material;
  cases::Vehicle vehicle;
  std::optional<double> radius; // m, where the case replaces that of all wheels
  double from, to;              // m
  [[nodiscard]] friend bool operator==(const PlanKey&, const PlanKey&) = default;
};
struct PlanOnPath {
  std::shared_ptr<const Geometry> geometry;
  std::shared_ptr<const passage::Plan> plan;
};

struct SharedParts::Pools {
  Pool<TrackPart, SharedTrack> tracks{2};
  Pool<TableKey, TrackWithSteps> tables{2};
  Pool<PathPart, Geometry> geometries{64};
  Pool<PlanKey, PlanOnPath> plans{0};
};

// Where one case finds its parts.
struct Places {
  std::size_t track = 0, table = 0, geometry = 0, plan = 0;
};
[[nodiscard]] Places places(SharedParts::Pools& pools, const Case& c); // throws InputError
[[nodiscard]] std::shared_ptr<const TrackWithSteps> table_of(SharedParts::Pools& pools, const Places& at);
void help_geometry(SharedParts::Pools& pools, const Places& at);
[[nodiscard]] std::shared_ptr<const PlanOnPath> plan_of(SharedParts::Pools& pools, const Places& at, const Case& c);
void release(SharedParts::Pools& pools, const Places& at);

} // namespace wingnose::study

// Values that several users share, made on first need by whichever thread comes first and dropped after their last use.
#pragma once

#include <atomic>
#include <cstddef>
#include <deque>
#include <exception>
#include <memory>
#include <mutex>
#include <new>
#include <unordered_map>
#include <utility>

namespace wingnose {

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
  void keep_for_next_call() noexcept {
    try {
      const auto parts = std::exchange(parts_, {});
      auto keys = std::exchange(keys_, {});
      const auto index = std::exchange(index_, {});
      for (const auto& [hash, i] : index) {
        if (parts[i].value() != nullptr && parts_.size() < keep_) {
          keys_.push_back(std::move(keys[i]));
          parts_.emplace_back().keep(parts[i].value());
          index_.emplace(hash, parts_.size() - 1);
        }
      }
    } catch (...) { // no memory to keep anything
      parts_.clear();
      keys_.clear();
      index_.clear();
      idle_ = 0;
    }
  }

private:
  std::deque<Part<Value>> parts_;
  std::deque<Key> keys_;
  std::unordered_multimap<std::size_t, std::size_t> index_;
  std::size_t keep_;
  std::atomic<std::size_t> idle_{0};
};

} // namespace wingnose

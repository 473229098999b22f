// One function per alternative of a variant, for std::visit. An alternative without one does not compile: a law that
// is added is known everywhere or nowhere.
#pragma once

#include <variant>

namespace wingnose {

template <class... Functions> struct overloaded : Functions... { using Functions::operator()...; };
template <class... Functions> overloaded(Functions...) -> overloaded<Functions...>;

} // namespace wingnose

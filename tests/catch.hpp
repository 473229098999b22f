// Catch2 under one name, whether version 2 (single header) or 3 is installed.
#pragma once
#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Approx;
#else
#include <catch2/catch.hpp>
#endif

#pragma once
// Catch2 v2 and v3 put their headers in different places; every test includes this one.
#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Approx;
#else
#include <catch2/catch.hpp>
#endif

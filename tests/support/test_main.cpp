#if __has_include(<catch2/catch_session.hpp>)
#include <catch2/catch_session.hpp>
int main(int argc, char** argv) { return Catch::Session().run(argc, argv); }
#else
#define CATCH_CONFIG_MAIN
#include <catch2/catch.hpp>
#endif

// Pango keeps the fonts it knows until the program ends, and its threads with them: what fontconfig holds for
// them is nobody's to free.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() { return "leak:libfontconfig"; }
extern "C" const char* __lsan_default_options();
extern "C" const char* __lsan_default_options() { return "print_suppressions=0"; }

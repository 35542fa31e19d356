#include "app/models/outlook.h"

namespace mellowbin::app {

std::string_view in_words(Readiness readiness) {
    switch (readiness) {
    case Readiness::young:
        return "young";
    case Readiness::usable:
        return "usable";
    case Readiness::ready:
        return "ready";
    case Readiness::use_first:
        return "use first";
    case Readiness::past_best:
        return "past its best";
    }
    return "";
}

std::string_view in_words(Advice advice) {
    switch (advice) {
    case Advice::wait:
        return "wait";
    case Advice::use:
        return "use";
    case Advice::use_first:
        return "use first";
    case Advice::hold:
        return "hold";
    }
    return "";
}

} // namespace mellowbin::app

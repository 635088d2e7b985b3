#include "app/frame_parts.hpp"

#include "app/keepsakes.hpp"

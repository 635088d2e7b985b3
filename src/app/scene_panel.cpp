#include "app/panels.hpp"

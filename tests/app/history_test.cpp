#include "app/history.hpp"

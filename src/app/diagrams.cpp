#include "app/diagrams.hpp"

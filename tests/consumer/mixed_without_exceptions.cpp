// tests/consumer/mixed_without_exceptions.cpp - the file of mixed.cpp's program without exceptions
// SPDX-License-Identifier: BSL-1.0
#include <barwright/core/mass.hpp>

double kilograms_without_exceptions(double kg) { return barwright::Mass::from_kg(kg).kg(); }

double kilograms_of(barwright::Mass mass) { return mass.kg(); }

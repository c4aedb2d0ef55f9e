// examples/embed/cpp/answers.cpp - a request in each line, an answer in each line, in C++
// SPDX-License-Identifier: BSL-1.0
#include <barwright/plan/json.hpp>
#include <iostream>
#include <string>

int main() {
  for (std::string request; std::getline(std::cin, request);) {
    std::cout << barwright::json::answer(request) << '\n';
  }
  return std::cout.flush() ? 0 : 1;
}

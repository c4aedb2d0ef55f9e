// examples/embed/web/native.cpp - the page's questions, answered outside a browser
//
// embed_web_native QUERY... prints one line of JSON for each. It takes on the locale of its host,
// as programs do, and must answer the same in each. SPDX-License-Identifier: BSL-1.0
#include <clocale>
#include <iostream>

#include "answer.hpp"

int main(int argc, char** argv) {
  std::setlocale(LC_ALL, "");
  for (int i = 1; i < argc; ++i) std::cout << answer_json(argv[i]) << '\n';
}

#include <doctest/doctest.h>

#include <barwright/core/source.hpp>

using namespace barwright;

TEST_CASE("a source says what kind of statement it is and whether it was read") {
  CHECK(to_text(Evidence::published) == "published");
  CHECK(to_text(Evidence::handbook) == "handbook");
  CHECK(to_text(Evidence::standard) == "standard");
  CHECK(to_text(Evidence::common_practice) == "common practice, no source");
  CHECK(to_text(Evidence::assumption) == "assumption");
  CHECK(to_text(Reading::read) == "read in the source");
  CHECK(to_text(Reading::from_memory) == "from memory, unverified");
  CHECK(to_text(Reading::not_applicable).empty());
}

TEST_CASE("common practice and assumptions cite nobody") {
  CHECK(common_practice("near 5 %").citation.empty());
  CHECK(common_practice("near 5 %").evidence == Evidence::common_practice);
  CHECK(common_practice("near 5 %").reading == Reading::not_applicable);
  CHECK(assumption("replace it").evidence == Evidence::assumption);
  CHECK(assumption("replace it").note == "replace it");
}

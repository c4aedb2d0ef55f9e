# docs/reference.sed - what doxygen is given in place of a header, line for line
#
# Doxygen 1.9 takes the inline namespace for another one, and private parts are nobody's to read.
# What every curve and every list has is described in one place, in the headers as here.
s/^namespace barwright::inline BARWRIGHT_ABI {/namespace barwright {/
s/^namespace barwright::inline BARWRIGHT_ABI::json {/namespace barwright::json {/
/^namespace detail {/,/^}  \/\/ namespace detail/s/.*//
/^namespace barwright::inline BARWRIGHT_ABI::detail {/,/^}  \/\/ namespace/s/.*//

# Forbids a copy, and says nothing.
s/^  \[\[no_unique_address\]\] detail::NotCopied.*//
# The name of a header is no tag.
s/<string> to use/\\<string\\> to use/

# The laws of RepCurve.
s/^  \(.*double fraction(double reps) const\)/  \/** The share of the max that goes up for so many reps to failure; see RepCurve. *\/ \1/
s/^  \(.*double reps(double [a-z]*) const\)/  \/** Reps to failure at this share of the max: the inverse of `fraction`; see RepCurve. *\/ \1/
s/^  \(.*double slope(double reps) const\)/  \/** The derivative of the logarithm of `fraction`, negative; see RepCurve. *\/ \1/
s/^  \(.*double multiplier(double reps) const\)/  \/** What a load is multiplied by to give the max: 1 \/ `fraction`. *\/ \1/
s/^  \(.*RepRange defined() const\)/  \/** The reps to failure it can be asked about; see RepCurve. *\/ \1/
s/^  \(.*RepRange studied() const\)/  \/** The reps to failure it was fitted on; see RepCurve. *\/ \1/

# Ranges, comparison, and printing.
s/^  \(\[\[nodiscard\]\].* begin() const noexcept\)/  \/** The first, for a range-based for. *\/ \1/
s/^  \(\[\[nodiscard\]\].* end() const noexcept\)/  \/** Behind the last. *\/ \1/
s/^  \(\[\[nodiscard\]\].* size() const noexcept\)/  \/** How many there are. *\/ \1/
s/^  \(\[\[nodiscard\]\].* empty() const noexcept\)/  \/** Whether there is none. *\/ \1/
s/^  \(\[\[nodiscard\]\].* facts() const noexcept\)/  \/** Its name, the reps it was studied on, its source. *\/ \1/
s/^\( *\)\(friend constexpr .* operator[=<]\)/\1\/** Compares by value. *\/ \2/
s/^\(\[\[nodiscard\]\] constexpr std::string_view to_text(\)/\/** As a person reads it. *\/ \1/
s/^  \(EquationFacts facts\)/  \/** Its name, the reps it was studied on, its source. *\/ \1/
s/^  \(Source source\)/  \/** Where the figure comes from. *\/ \1/

s/^  \(\[\[nodiscard\]\].* operator\[\](.*) const\( noexcept\)\{0,1\}\)/  \/** The one at this place, or of this group. *\/ \1/
s/^  \(.* operator()(.*) const\)/  \/** Does it. *\/ \1/
s/^  \(\[\[nodiscard\]\].* operator\*() const\)/  \/** As `value`. *\/ \1/
s/^  \(\[\[nodiscard\]\].* operator->() const\)/  \/** As `value`. *\/ \1/
s/^  \(constexpr .* operator[-+]=(.*) noexcept\)/  \/** Adds, or takes off. *\/ \1/
s/^  \(.* operator std::string_view() const\)/  \/** The characters. *\/ \1/
s/^  \(explicit operator bool() const\)/  \/** Whether there is a value. *\/ \1/
/^  class iterator {/,/^  };/s/^    \(using\|constexpr\|\[\[nodiscard\]\]\) /    \/** As every random access iterator has it. *\/ &/
s/^  class iterator {/  \/** A random access iterator over the things themselves. *\/ &/
s/^struct std::hash<barwright::LiftId> {/\/** The hash of a LiftId, for unordered maps and sets. *\/ &/

# Overloads, and the smoother's moves, which are the filter's.
s/^  \(.*(std::initializer_list<Term> terms\)/  \/** The same of a list in braces. *\/ \1/
/^class KalmanFilter/,/^};/s/^  \(void predict(const StateMatrix& transition, const StateMatrix& noise)\)/  \/** The same without an offset. *\/ \1/
/^class KalmanSmoother/,/^};/s/^  \(void [a-z_]*(\|Innovation update(std::span\)/  \/** As the filter does it, and remembered. *\/ \1/
s/^  \(\[\[nodiscard\]\] RatingBias rating_bias() const\)/  \/** How much the lifter leaves unsaid. *\/ \1/
s/^  \(\[\[nodiscard\]\].* double bend() const noexcept\|\[\[nodiscard\]\] double bend() const noexcept\)/  \/** How far the curve is bent. *\/ \1/
/^class BasicText/,/^};/s/^  constexpr BasicText& append(const BasicText<Other>/  \/** The same of another text. *\/ &/
/^class BasicText/,/^};/s/^  .*BasicText append.*) && noexcept/  \/** The same for a temporary: the result is a text of its own. *\/ &/
s/^  \[\[nodiscard\]\].* \(view\|c_str\)() const& noexcept/  \/** The characters, a zero behind them; they live as long as the text. *\/ &/
s/^  \[\[nodiscard\]\].* value() &/  \/** The same, to be changed in place, or moved out of a temporary. *\/ &/
s/^  \[\[nodiscard\]\].* text() &&/  \/** The same, moved out of a temporary. *\/ &/
/^class Value {/,/^};/s/^  explicit Value(.*/  \/** Holds a value of this kind. *\/ &/
/^class Writer {/,/^};/s/^  Writer& value(\(int\|std::size_t\|bool\|const\) .*/  \/** The same of a value of this kind. *\/ &/

# Figures: what they are and where they come from stands in their values, which are shown.
s/^inline constexpr \(LinearMultiplier\|LinearShare\|PowerShare\|ExponentialShare\|CubicMultiplier\|RepTable<[0-9]*>\|VelocityCurve\) /\/** A rep or velocity curve; its numbers, population and source are its value. *\/ &/
s/^inline constexpr \(LoadRegression\|InteractionRegression\|RegressionFacts\) /\/** A regression for one lift and group; its numbers, population and source are its value. *\/ &/
s/^inline constexpr \(BaseLift\|Modifier\) /\/** What it is, its figures and what they rest on are its value. *\/ &/
s/^inline constexpr Source /\/** A source; see Source. *\/ &/

# In reference.dox: "- Class::member: what it is.", and with its parameters where there are overloads.
s/^- \([^ (]*([^)]*)[^:]*\): \(.*\)/\/** \\fn barwright::\1\n\2 *\//
s/^- \([^ ]*[^ :]\): \(.*\)/\/** \\fn barwright::\1\n\2 *\//

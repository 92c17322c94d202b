package schema

// Prices is the schema of a price list.
func Prices() *Schema {
	mapOf := func(is string) *Schema { return &Schema{Type: []string{"object"}, Others: reference(is)} }
	currency := text()
	currency.Pattern = "^[A-Z]{3}$"
	needsPrice := func(key string) *Schema { return anyOf(absent(key), given("price")) }
	definitions := Properties{
		{"crew", entry{title: "Crew", about: "People at one rate.", keys: []key{
			need("people", text(), "how many they are"),
			need("rate", text(), "what an hour of one of them costs, such as 41.50 per hour"),
			may("burden", text(), "what is paid beside that rate, if it is the wage alone, such as 30 %"),
		}}.schema()},
		{"item", entry{title: "Item", about: "What one thing costs, and the labor that it takes.", keys: []key{
			may("price", text(), "an amount for a unit, such as 24.50 per ton, 8.20 per bag, 8.20 per bag of 50 lb or 0.85 each"),
			may("hours", text(), "the hours of labor for a unit, such as 0.12 per sq ft"),
			may("crew", text(), "the crew that does it"),
			may("least", text(), "the least that is ordered, such as 5 ton"),
			may("short_load", reference("short_load"), "what a small order costs beside its price"),
			may("cut", flag(), "whether the seller cuts it to length, so that what is left of a roll is not paid"),
		}, rules: []*Schema{anyOf(given("price"), given("hours")), anyOf(absent("hours"), given("crew")), needsPrice("least"), needsPrice("short_load")}}.schema()},
		{"short_load", entry{title: "Short load", about: "The fee for a small order.", keys: []key{
			need("below", text(), "the order below which it is due, such as 15 ton"),
			need("fee", text(), "the fee, such as 85.00"),
		}}.schema()},
	}
	return file(entry{title: "Price list", about: "A company's own prices, and the days on which they hold.", keys: []key{
		need("prices", text(), "the name of the list"),
		need("company", text(), "whose prices they are"),
		need("dated", day(), "the day on which they were set"),
		need("from", day(), "the first day on which they hold"),
		need("until", day(), "the last day on which they hold"),
		need("currency", currency, "the currency of all amounts by its three letters, such as USD"),
		may("hours_per_day", text(), "the hours that a crew works in a day; 8 if it is left out"),
		may("crews", mapOf("crew"), "the crews by their names"),
		need("items", mapOf("item"), "what things cost, each by the item that quantities of the rulebook name"),
		need("overhead", text(), "what the company costs beside its jobs: 12 % of direct cost, or 20.00 per hour of labor"),
		may("markup", text(), "profit as a percentage of cost; or margin"),
		may("margin", text(), "profit as a percentage of the price; or markup"),
	}, rules: []*Schema{one(given("markup"), given("margin"))}}, definitions)
}

/* Quotes, rounding, splits, pieces to start and prices by quantity through the C header. Run from the root of the project.
   The figures are those of tests/data/cost_rows.jsonl. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static char *file(const char *path, size_t *length) {
    FILE *open = fopen(path, "rb");
    char *text = malloc(1 << 20);
    CHECK(open != NULL && text != NULL);
    *length = fread(text, 1, 1 << 20, open);
    fclose(open);
    return text;
}

/* One routing alone, and the range of its price. */
static void routings_and_range(const char *plan, size_t length) {
    const char variation[] = "{\"count\": 200, \"varying\": [{\"place\": \"/rates/machines/0/rate\", \"nominal\": 40, "
                             "\"plus\": 5, \"minus\": -5}]}";
    tenths_routing_comparison compared;
    tenths_price_range range;
    char *routed = NULL;
    compared.struct_size = sizeof compared, range.struct_size = sizeof range;
    CHECK(tenths_plan_compare_routings(plan, length, NULL, 0, 25, 20, &compared) == TENTHS_OK);
    CHECK(compared.routings_count == 1 && compared.quantity == 25 && compared.routings[0].errors == 0);
    CHECK(strcmp(compared.routings[0].name, "main") == 0 && strcmp(compared.cheapest, "main") == 0);
    CHECK(compared.stretches_count == 1 && compared.stretches[0].to_quantity == 20);
    tenths_routing_comparison_clear(&compared);
    CHECK(tenths_plan_compare_routings(plan, length, NULL, 0, 25, 0, &compared) == TENTHS_PLAN_FAULTS);
    CHECK(tenths_plan_routing(plan, length, "main", &routed) == TENTHS_OK && routed != NULL);
    tenths_text_free(routed);
    CHECK(tenths_plan_routing(plan, length, "other", &routed) == TENTHS_PLAN_FAULTS && routed == NULL);
    CHECK(tenths_plan_price_range(plan, length, 25, variation, sizeof variation - 1, NULL, &range) == TENTHS_OK);
    CHECK(range.count == 200 && range.unpriced == 0 && range.percentiles_count == 7);
    CHECK(range.minimum_minor < range.percentiles[3].total_minor && range.percentiles[3].total_minor < range.maximum_minor);
    tenths_price_range_clear(&range);
    CHECK(tenths_plan_price_range(plan, length, 25, "{", 1, NULL, &range) == TENTHS_PLAN_FAULTS);
}

static void quotes(void) {
    const uint64_t quantities[] = {1, 25, 500};
    size_t length, k, line;
    char *plan = file("examples/plans/roller_axle.json", &length);
    tenths_price_list list;
    list.struct_size = sizeof list;
    CHECK(tenths_plan_quote(plan, length, NULL, 0, quantities, 3, &list) == TENTHS_OK);
    CHECK(list.quotes_count == 3 && strcmp(list.currency, "EUR") == 0 && list.cautions_count == 1);
    for (k = 0; k < 3; k++) {
        const tenths_quote *quote = &list.quotes[k];
        int64_t sum = 0;
        for (line = 0; line < quote->lines_count; line++) sum += quote->lines[line].amount_minor;
        CHECK(quote->quantity == (int64_t)quantities[k] && sum == quote->total_minor);
        CHECK(quote->price_each_minor * quote->quantity == quote->total_minor && quote->residue_minor == 0);
        CHECK(fabs(strtod(quote->total, NULL) * 100 - (double)quote->total_minor) < 1e-6);
        CHECK(quote->lines[0].kind == TENTHS_QUOTE_LINE_KIND_MATERIAL && quote->hours > 0);
    }
    tenths_price_list_clear(&list);
    CHECK(list.quotes == NULL);
    {
        char *text = NULL;
        CHECK(tenths_plan_quote_text(plan, length, NULL, 0, quantities, 3, "html", &text) == TENTHS_OK);
        CHECK(text != NULL && strstr(text, "<h2>500 pieces</h2>") != NULL && strstr(text, "@page") != NULL);
        tenths_text_free(text);
        CHECK(tenths_plan_quote_text(plan, length, NULL, 0, quantities, 3, NULL, &text) == TENTHS_OK);
        CHECK(text != NULL && strstr(text, "## 25 pieces") != NULL);
        tenths_text_free(text);
        CHECK(tenths_plan_quote_text(plan, length, NULL, 0, quantities, 3, "pdf", &text) == TENTHS_BAD_CHOICE && text == NULL);
    }
    {
        const char rates[] = "{\"currency\": \"EUR\"}";
        CHECK(tenths_plan_quote(plan, length, rates, sizeof rates - 1, quantities, 3, &list) == TENTHS_PLAN_FAULTS);
        CHECK(list.quotes == NULL && list.quotes_count == 0);
    }
    CHECK(tenths_plan_quote(plan, length, NULL, 0, quantities, 0, &list) == TENTHS_PLAN_FAULTS);
    {
        tenths_route_comparison routes;
        tenths_price_drivers drivers;
        tenths_economic_lot lot;
        routes.struct_size = sizeof routes, drivers.struct_size = sizeof drivers, lot.struct_size = sizeof lot;
        CHECK(tenths_plan_break_even(plan, length, plan, length, NULL, 0, 20, &routes) == TENTHS_OK);
        CHECK(routes.stretches_count == 1 && routes.stretches[0].cheaper == TENTHS_ROUTE_STRETCH_CHEAPER_NEITHER);
        tenths_route_comparison_clear(&routes);
        CHECK(tenths_plan_price_drivers(plan, length, NULL, 0, 25, 0.1, &drivers) == TENTHS_OK);
        CHECK(drivers.drivers_count > 20 && drivers.drivers[0].swing_minor >= drivers.drivers[1].swing_minor);
        tenths_price_drivers_clear(&drivers);
        CHECK(tenths_plan_economic_lot(plan, length, NULL, 0, 1000, 0.25, &lot) == TENTHS_OK);
        CHECK(lot.quantity > 1 && lot.lot_cost_minor > 0);
        tenths_economic_lot_clear(&lot);
    }
    routings_and_range(plan, length);
    free(plan);
}

static void money(void) {
    const double weights[] = {25, 7, 13, 4};
    int64_t minor, parts[4];
    CHECK(tenths_round_money("32.065", 2, 0, &minor) == TENTHS_OK && minor == 3206);
    CHECK(tenths_round_money("32.065", 2, 1, &minor) == TENTHS_OK && minor == 3207);
    CHECK(tenths_round_money("-0.125", 2, 1, &minor) == TENTHS_OK && minor == -13);
    CHECK(tenths_round_money("12 EUR", 2, 1, &minor) == TENTHS_NO_COST && minor == 0);
    CHECK(tenths_round_money("12", 2, 2, &minor) == TENTHS_BAD_CHOICE);
    CHECK(tenths_round_money("12", 300, 0, &minor) == TENTHS_NO_COST);
    CHECK(tenths_split_money(8500, weights, 4, parts) == TENTHS_OK);
    CHECK(parts[0] == 4337 && parts[1] == 1214 && parts[2] == 2255 && parts[3] == 694);
}

static void starts(void) {
    const double scrap[] = {0.03, 0.05, 0.02, 0.08};
    tenths_start_quantities chain;
    chain.struct_size = sizeof chain;
    CHECK(tenths_start_chain(100, scrap, 4, 0, &chain) == TENTHS_OK && chain.starts_count == 4);
    CHECK(chain.starts[0] == 122 && chain.starts[1] == 118 && chain.starts[2] == 112 && chain.starts[3] == 109);
    CHECK(fabs(chain.rolled - 120.36237741694) < 1e-9);
    tenths_start_quantities_clear(&chain);
    CHECK(tenths_start_chain(100, scrap, 4, 1, &chain) == TENTHS_OK && chain.start_quantity == 121);
    tenths_start_quantities_clear(&chain);
}

static void prices(void) {
    const uint64_t from[] = {1, 101, 301}, breaks[] = {1, 10, 50};
    const double price[] = {100, 90, 85}, each[] = {14.2, 11.75, 9.9};
    tenths_discounted_order order;
    tenths_quantity_break tier;
    order.struct_size = sizeof order;
    tier.struct_size = sizeof tier;
    CHECK(tenths_order_discounted(1000, 200, 0.25, from, price, 3, 0, &order) == TENTHS_OK);
    CHECK(order.quantity == 301 && fabs(order.annual_cost - 88862.576827243) < 1e-6 && order.tiers_count == 3);
    tenths_discounted_order_clear(&order);
    CHECK(tenths_quantity_break_at(breaks, each, 3, 1, &tier) == TENTHS_OK);
    CHECK(tier.has_dearer_from && tier.dearer_from == 43 && tier.order_instead == 50 && tier.to_quantity == 49);
    CHECK(tenths_quantity_break_at(breaks, each, 3, 3, &tier) == TENTHS_BAD_INDEX);
}

int main(void) {
    quotes();
    money();
    starts();
    prices();
    return finish();
}

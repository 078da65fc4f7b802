/* Starting values, drafted plans, and what a plan leaves out. Run from the root of the project. */
#include "check.h"
#include "tenths.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char request[] =
    "{\"units\": \"metric\", \"material\": \"SAE 1045\", \"quantity\": 25, \"features\": ["
    "{\"kind\": \"step\", \"diameter\": \"20 h9\", \"length\": 25, \"roughness\": 1.6},"
    "{\"kind\": \"hole\", \"diameter\": 8, \"depth\": 20}]}";
static const char standards[] =
    "{\"tenths_standards\": 1, \"units\": \"metric\", \"operations\": [{\"kind\": \"deburr\", \"time\": 0.9}]}";

static const char *message(void) {
    static char text[2000];
    tenths_error_message(text, sizeof text);
    return text;
}

/* The Ferrous Metals Data Book, chapter 9, table 9-3: 1045, coated carbide, 415 to 785 ft/min at 0.007 in a revolution. */
static void starting(void) {
    tenths_starting_value value;
    size_t count = 0;
    value.struct_size = sizeof value;
    CHECK(tenths_starting_value_at(TENTHS_INCH, "SAE 1045", "turning", "carbide", 0, 0, &value) == TENTHS_OK);
    CHECK(fabs(value.speed_lower - 415) < 1e-9 && fabs(value.speed_upper - 785) < 1e-9);
    CHECK(fabs(value.feed_lower - 0.007) < 1e-12 && strstr(value.source, "Table 9-3") != NULL);
    tenths_starting_value_clear(&value);
    while (tenths_starting_value_at(TENTHS_INCH, "SAE 1045", "turning", NULL, 0, count, &value) == TENTHS_OK) {
        tenths_starting_value_clear(&value);
        count++;
    }
    CHECK(count > 4);
    CHECK(tenths_starting_value_at(TENTHS_METRIC, "SAE 1045", "tickling", NULL, 0, 0, &value) == TENTHS_UNKNOWN_NAME);
    CHECK(strstr(message(), "tickling") != NULL);
    CHECK(tenths_starting_value_at(TENTHS_METRIC, "Alloy 718", "turning", NULL, 0, 0, &value) == TENTHS_NO_MATERIAL);
    CHECK(tenths_starting_value_at(TENTHS_METRIC, "aluminium", "drilling", NULL, -8, 0, &value) != TENTHS_OK);
    tenths_starting_value_clear(&value);
}

static void draft(void) {
    char *plan = NULL, *sheet = NULL, *completed = NULL, *again = NULL;
    CHECK(tenths_draft_plan(request, sizeof request - 1, NULL, 0, &plan) == TENTHS_OK);
    CHECK(tenths_plan_evaluate(plan, strlen(plan), &sheet) == TENTHS_OK);
    CHECK(strstr(sheet, "\"assumed\":[{\"place\":\"/") != NULL);
    CHECK(strstr(sheet, "\"severity\":\"error\"") == NULL);
    tenths_text_free(sheet);
    CHECK(tenths_plan_complete(plan, strlen(plan), standards, sizeof standards - 1, &completed) == TENTHS_OK);
    CHECK(strstr(completed, "0.9") != NULL);
    CHECK(tenths_plan_complete(completed, strlen(completed), NULL, 0, &again) == TENTHS_OK);
    CHECK(strcmp(completed, again) == 0);
    CHECK(tenths_plan_evaluate_with(plan, strlen(plan), standards, sizeof standards - 1, &sheet) == TENTHS_OK);
    CHECK(strstr(sheet, "your standards, /operations/0") != NULL);
    tenths_text_free(sheet), tenths_text_free(completed), tenths_text_free(again), tenths_text_free(plan);
}

static void refused(void) {
    static const char bad[] = "{\"units\": \"metric\", \"material\": \"SAE 1045\", \"quantity\": 0, \"features\": []}";
    char *plan = NULL;
    CHECK(tenths_draft_plan(bad, sizeof bad - 1, NULL, 0, &plan) != TENTHS_OK && plan == NULL);
    CHECK(strstr(message(), "/quantity: must be greater than 0, not 0") != NULL);
    CHECK(tenths_draft_plan(request, sizeof request - 1, "{}", 2, &plan) != TENTHS_OK && plan == NULL);
    CHECK(strstr(message(), "/standards/tenths_standards: must be 1") != NULL);
}

int main(void) {
    starting();
    draft();
    refused();
    return finish();
}

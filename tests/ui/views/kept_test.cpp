// Every form a person can begin: typed, kept, and taken up in a window that was just opened.

#include "ui/views/intake_typing.h"
#include "ui/views/kept_window.h"

using namespace mellowbin;
using namespace mellowbin::test;
using views::Screen;

namespace {

RetestDraft a_retest() {
    RetestDraft draft;
    auto& [taken_on, place, note, figures] = draft;
    fill(taken_on, place, note);
    figures = two_figures();
    return draft;
}

bool has_text(const KeptText& kept, const std::string& text) {
    return std::any_of(kept.fields.begin(), kept.fields.end(),
                       [&](const auto& field) { return field.second == text; });
}

} // namespace

TEST_CASE("Looking around is no work begun") {
    for (const auto screen : {Screen::intake, Screen::lots, Screen::readiness, Screen::plan, Screen::mixer,
                              Screen::plant, Screen::settings}) {
        WholeWindow w(screen);
        w.lots.opened = test::a_sheet();
        w.screen.settle();
        INFO(views::name_of(screen));
        CHECK(kept(w).begun.empty());
        CHECK(kept(w).fields.empty());
    }
}

TEST_CASE("A delivery is kept with all its lots, figures, and answers at the door") {
    WholeWindow w(Screen::intake);
    w.screen.settle();
    auto& view = w.screens.intake;
    auto& delivery = view.delivery;
    delivery.at_hand().draft = a_lot();
    delivery.next();
    delivery.next();
    auto& line = delivery.at_hand();
    line.draft = a_lot();
    line.basis = "14 % moisture";
    line.own_basis = {Property::protein, Property::falling_number};
    line.left = {"Lot number", "Weight"};
    line.scanned = {"Best before"};
    line.expected = {"Flour", "Milled on"};
    line.is_from_file = line.all_left = true;
    REQUIRE(view.door.checks.size() == 3);
    view.door.checks[1].answer = "no";
    view.door.checks[1].findings = {{line.number, next_text(), next_text()}, {0, "", next_text()}};
    view.scanned = next_text();
    auto& [order, expected, on_note, weighed, remark, weight_reason] = view.form.draft;
    fill(order, expected, on_note, weighed, remark, weight_reason, view.form.by_order);
    view.form.filled = {line.number};
    view.form.joins = DeliveryId{7};
    view.form.in_already = Grams{1'000'000};
    view.form.begun = {BegunId{3}, 2};
    view.form.left = {"Weighed"};
    view.form.all_left = view.form.shows_more = true;
    const auto text = stays(w, 1, Screen::intake);
    CHECK(text.begun.front() == "a delivery of 2 lots");
    CHECK(has_text(text, line.draft.accept_reason));
    CHECK(has_text(text, view.door.checks[1].findings[1].note));

    NewWindow next;
    take_up_in(next, text);
    const auto& taken_up = next.screens.intake;
    CHECK(taken_up.delivery.at_hand().draft.code == line.draft.code);
    CHECK(taken_up.delivery.at_hand().draft.pallets.size() == 2);
    CHECK(taken_up.form.draft == view.form.draft);
    CHECK(taken_up.form.begun == view.form.begun);
    CHECK(taken_up.form.in_already == view.form.in_already);
    CHECK(taken_up.form.filled == std::set{taken_up.delivery.at_hand().number});
    REQUIRE(taken_up.door.checks.size() == 3);
    CHECK(taken_up.door.checks[1].findings.at(0).line == taken_up.delivery.at_hand().number);
    CHECK(taken_up.door.checks[1].findings.at(1).line == 0);
}

TEST_CASE("A delivery that is taken up is at the same lot, and each lot has its own weight") {
    KeptText text;
    {
        WholeWindow w(Screen::intake);
        w.screen.type("Lot number", "W26-150");
        test::enter_lot(w, "W26-151");
        w.screen.type("Weight", "1 000,5");
        test::enter_lot(w, "W26-150");
        w.screen.type("Weight", "900");
        text = kept(w);
    }
    WholeWindow next(Screen::lots);
    next.screen.settle();
    take_up_in(next, text);
    next.screen.settle();
    CHECK(next.screen.value_of("Lot number") == "W26-150");
    CHECK(next.screen.value_of("Weight") == "900");
    test::enter_lot(next, "W26-151");
    CHECK(next.screen.value_of("Weight") == "1 000,5");
    CHECK(next.screen.offers("Take in 2 lots"));
}

TEST_CASE("What is only remembered of the delivery before is no work begun") {
    WholeWindow w(Screen::intake);
    w.screen.type("Lot number", "W26-150");
    w.screens.intake.delivery.at_hand().draft.mill = "Weir Mill";
    CHECK(kept(w).begun.size() == 1);
    w.screen.click("Take in 1 lot");
    w.screens.intake.sent = {w.screens.intake.delivery.at_hand().number};
    w.intake.taken_in = 1;
    w.tell(test::done(1, "Taken in"));
    CHECK(w.screens.intake.delivery.at_hand().draft.mill == "Weir Mill");
    CHECK(kept(w).begun.empty());
}

TEST_CASE("A delivery typed since stands beside the one that is taken up") {
    NewWindow before;
    before.screens.intake.delivery.at_hand().draft.code = "W26-150";
    WholeWindow w(Screen::intake);
    w.screen.type("Lot number", "W26-200");
    take_up_in(w, kept(before));
    w.screen.settle();
    CHECK(w.screen.offers("Take in 2 lots"));
    CHECK(w.screen.value_of("Lot number") == "W26-150");
}

TEST_CASE("A retest, a loaf and a question of a lot are kept") {
    WholeWindow w(Screen::lots);
    w.lots.opened = test::a_sheet();
    w.screen.settle();
    auto& view = w.screens.lots;
    view.retest.open_for(LotId{6});
    view.retest.is_open = true;
    view.retest.drafts[LotId{6}] = a_retest();
    view.retest.drafts[LotId{2}] = a_retest();
    auto& loaf = view.bakes.form.begin(LotId{6});
    {
        auto& [substance, dose, measure, size, baked_on, note] = loaf;
        fill(substance, dose, measure, size, baked_on, note);
    }
    auto& question = view.question.emplace();
    question.deed = views::LotQuestion::Deed::count;
    question.lot = LotId{6};
    question.code = "W26-131";
    question.state = LotState::held;
    question.place = PlaceId{2};
    question.to = PlaceId{4};
    question.run = RunId{3};
    question.movement = MovementId{5};
    fill(question.place_name, question.booked, question.movement_words, question.kg, question.reason,
         question.until);
    auto& withdrawing = view.withdrawing.emplace();
    withdrawing.what = BakeId{7};
    fill(withdrawing.words, withdrawing.reason);
    view.page = 3;
    const auto text = stays(w, 5, Screen::lots);
    const auto second = std::find_if(w.lots.rows.begin(), w.lots.rows.end(),
                                     [](const app::LotRow& row) { return row.id == LotId{2}; });
    REQUIRE(second != w.lots.rows.end());
    CHECK(text.begun.at(1) == "a retest of lot " + second->code);

    NewWindow next;
    const auto opens = take_up_in(next, text);
    REQUIRE(opens.size() == 1);
    REQUIRE(opens.front().as<app::OpenLot>());
    CHECK(opens.front().as<app::OpenLot>()->lot == LotId{6});
    CHECK(next.screens.lots.question->deed == views::LotQuestion::Deed::count);
    CHECK(next.screens.lots.question->state == LotState::held);
    CHECK(std::get<BakeId>(next.screens.lots.withdrawing->what) == BakeId{7});
}

TEST_CASE("Every deed that a lot is asked about keeps its reason") {
    using Deed = views::LotQuestion::Deed;
    for (const auto deed : {Deed::release, Deed::hold, Deed::reject, Deed::extend, Deed::move, Deed::count,
                            Deed::waste, Deed::give_back, Deed::take_back}) {
        WholeWindow w(Screen::lots);
        auto& question = w.screens.lots.question.emplace();
        question.deed = deed;
        question.lot = LotId{6};
        question.code = "W26-131";
        CHECK(kept(w).begun.empty()); // asked, and nothing typed
        question.reason = next_text();
        CHECK_THAT(stays(w, 1, Screen::lots).begun.front(), Catch::Contains("W26-131"));
    }
}

TEST_CASE("A retest half logged in a lot's story is kept") {
    WholeWindow w(Screen::readiness);
    w.screens.readiness.story.retest.drafts[LotId{6}] = a_retest();
    auto& withdrawing = w.screens.readiness.story.withdrawing.emplace();
    withdrawing.what = RetestId{2};
    fill(withdrawing.words, withdrawing.reason);
    stays(w, 2, Screen::readiness);
}

TEST_CASE("A batch half logged is kept, with what came of another, the solution and the questions") {
    WholeWindow w(Screen::mixer);
    w.screen.settle();
    auto& view = w.screens.mixer;
    const views::ShownBatch batch{RunId{12}, 3};
    view.given.open_for(batch);
    {
        auto& [flour, water, water_temperature, ice, oxidant, checked_by, answer] = view.given.drafts[batch];
        flour.resize(2);
        flour[0].lot = LotId{6};
        for (auto& [lot, mass, code] : flour)
            fill(mass, code);
        fill(water, water_temperature, ice, oxidant, checked_by, answer);
    }
    ResultDraft said;
    said.note = "said before";
    view.result.open_for(BatchId{4}, said);
    CHECK(kept(w).begun.size() == 1); // a result that is only looked at is none
    {
        auto& [dough_temperature, ph, feel, mixing_minutes, fermentation_minutes, note, answer] =
            view.result.drafts[BatchId{4}];
        fill(dough_temperature, ph, feel, mixing_minutes, fermentation_minutes, note, answer);
    }
    {
        auto& [product, kind, baked_on, days, finding, firmness, ph, note] =
            view.keeping.form.begin(ProductId{2});
        fill(product, kind, baked_on, days, finding, firmness, ph, note);
    }
    view.solution.is_open = true;
    fill(view.solution.substance, view.solution.strength, view.solution.keeps, view.solution.answer);
    view.scan.text = next_text();
    view.log.question.emplace().batch = BatchId{9};
    fill(view.log.question->words, view.log.question->reason);
    view.clearing.emplace().run = RunId{12};
    fill(view.clearing->by, view.clearing->reason);
    view.keeping.taking_back.emplace().what = KeepingId{3};
    fill(view.keeping.taking_back->words, view.keeping.taking_back->reason);
    stays(w, 8, Screen::mixer);
}

TEST_CASE("A run half added or changed is kept by the names of its product and line") {
    WholeWindow w(Screen::plan);
    w.screen.settle();
    auto& view = w.screens.plan;
    view.form.open(w.plan, "2026-11-25");
    CHECK(kept(w).begun.empty()); // opened, and nothing typed
    view.form.product = 1;
    view.form.line = 0;
    fill(view.form.batches);
    view.question = views::PlanQuestion::change(w.plan.runs[1], w.plan);
    CHECK(kept(w).begun.size() == 1); // the question is only looked at
    fill(view.question->day, view.question->batches, view.question->place, view.question->lot,
         view.question->reason);
    {
        auto& [is_open, mill, flour, kg, arrives, milled, order, asked] = view.flour.expect;
        is_open = true;
        fill(mill, flour, kg, arrives, milled, order);
    }
    {
        auto& [is_open, lot, kg, reason, product, asked] = view.flour.reserve;
        product = 2;
        fill(lot, kg, reason);
    }
    fill(view.what_if.flour, view.what_if.kg, view.what_if.arrives, view.what_if.market, view.what_if.lot);
    view.what_if.kind = 1;
    const auto text = stays(w, 5, Screen::plan);
    CHECK(text.fields.at("plan/run/product") == w.plan.products.at(1));

    // A product that came in before it does not become another one.
    NewWindow next;
    next.plan.products.insert(next.plan.products.begin(), "A new bread");
    take_up_in(next, text);
    CHECK(next.screens.plan.form.product == 2);
}

TEST_CASE("Choices, corrections of limits and ingredients are kept, an emptied one, too") {
    WholeWindow w(Screen::settings);
    w.screen.settle();
    auto& view = w.screens.settings;
    view.typed["plant"] = {"", "Riverside Bakery"};
    view.typed["confidence"] = {next_text(), "0.80"};
    const auto& line = w.settings.limits.back();
    const auto record = views::record_of(line.id);
    view.limit_form.open_for(record, line.draft);
    CHECK(kept(w).begun.size() == 2); // the limit is only looked at
    {
        auto& [figure, status, source, source_date] = view.limit_form.drafts[record];
        fill(figure, status, source, source_date);
    }
    std::vector<IngredientDraft> rows(2);
    for (auto& [name, percent, water, temperature] : rows)
        fill(name, percent, water, temperature);
    view.doughs.drafts[ProductId{1}] = {rows, {}};
    fill(view.storage.path, view.storage.place, view.storage.accept_reason);
    view.storage.taking_back.emplace().what = ClimateLogId{3};
    fill(view.storage.taking_back->words, view.storage.taking_back->reason);
    const auto text = stays(w, 6, Screen::settings);
    CHECK(text.fields.contains("settings/choices/plant/is_typed"));
}

TEST_CASE("What is typed into a form that is kept already is not typed over by what is taken up") {
    NewWindow before, w;
    before.screens.lots.retest.drafts[LotId{6}].note = "before";
    w.screens.lots.retest.drafts[LotId{6}].note = "since";
    take_up_in(w, kept(before));
    CHECK(w.screens.lots.retest.drafts[LotId{6}].note == "since");
}

TEST_CASE("A file of kept work that says nonsense takes up what can be read of it") {
    KeptText odd{{"a delivery"},
                 {{"intake/lots", "99999999999999999999"},
                  {"intake/lots/0/draft/code", "W24-118"},
                  {"intake/at_hand", "x"},
                  {"lots/retests/none/draft/note", "of no lot"},
                  {"lots/page", "-7"},
                  {"plan/page", "400"},
                  {"mixer/page", "400"},
                  {"settings/page", "400"},
                  {"shown", "cellar"}}};
    WholeWindow w(Screen::lots);
    take_up_in(w, odd);
    for (const auto screen : {Screen::intake, Screen::lots, Screen::plan, Screen::mixer, Screen::settings}) {
        w.screens.show(screen);
        w.screen.settle();
    }
    SUCCEED("all screens were drawn");
}

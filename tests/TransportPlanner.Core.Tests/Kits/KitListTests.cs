using CsCheck;
using TransportPlanner.Core.Kits;
using TransportPlanner.Core.Precautions;

namespace TransportPlanner.Core.Tests.Kits;

public sealed class KitListTests
{
    private static readonly KitQuery Example = new()
    {
        WeightGrams = 1_850,
        GestationWeeks = 32,
        Support = RespiratorySupport.InvasiveVentilation,
        Precautions = PrecautionSet.Airborne,
        JourneyMinutes = 9,
    };

    private static readonly Gen<KitQuery> AnyQuery =
        from grams in Gen.Int[KitQuery.MinWeightGrams, KitQuery.MaxWeightGrams]
        from weeks in Gen.Int[KitQuery.MinGestationWeeks, KitQuery.MaxGestationWeeks]
        from weightKnown in Gen.Bool
        from gestationKnown in Gen.Bool
        from support in Gen.Enum<RespiratorySupport>()
        from precautions in Gen.Int[0, 7]
        from devices in Gen.Enum<KitDevice>().Array[0, 4]
        select new KitQuery
        {
            WeightGrams = weightKnown ? grams : null,
            GestationWeeks = gestationKnown ? weeks : null,
            Support = support,
            Precautions = (PrecautionSet)precautions,
            JourneyMinutes = 9,
            Devices = devices,
        };

    private static KitItem Item(KitQuery query, string id) => KitList.For(query).Items.Single(item => item.Id == id);

    private static bool Lists(KitQuery query, string id) => KitList.For(query).Items.Any(item => item.Id == id);

    /// <summary>AARC position statement (PR-016): a self-inflating bag and mask travels with every patient.</summary>
    [Fact]
    public void A_self_inflating_bag_and_mask_travels_always() => AnyQuery.Sample(query =>
        Lists(query, "self-inflating-bag") && Lists(query, "face-mask"));

    [Fact]
    public void A_heavier_infant_never_gets_a_smaller_tube() =>
        Gen.Select(AnyQuery, Gen.Int[KitQuery.MinWeightGrams, KitQuery.MaxWeightGrams], Gen.Int[KitQuery.MinWeightGrams, KitQuery.MaxWeightGrams])
            .Sample((query, one, other) =>
                SmallestTube(query with { WeightGrams = Math.Min(one, other) }) <= SmallestTube(query with { WeightGrams = Math.Max(one, other) }));

    private static double SmallestTube(KitQuery query) =>
        Item(query, "tracheal-tube").Sizes.Where(size => size.Offered).Min(size => size.Low!.Value);

    /// <summary>The depth rules disagree by up to half a centimeter (KS-30): one figure alone is never shown.</summary>
    [Fact]
    public void Tube_depth_is_never_a_single_number() => AnyQuery.Sample(query =>
    {
        var depth = Item(query, "oral-tube-depth");
        return depth.NeedsConfirmation && depth.Sizes.Select(size => size.RuleId).Distinct().Count() > 1
            && depth.Size!.Contains(" or ", StringComparison.Ordinal);
    });

    [Fact]
    public void Every_item_has_a_source_and_a_reason_and_several_sizes_ask() => AnyQuery.Sample(query =>
        KitList.For(query).Items.All(item =>
            item.Why.Length > 0 && !item.Why.Contains('{', StringComparison.Ordinal) && item.Source.Title.Length > 0
            && (item.NeedsConfirmation || item.Sizes.Where(size => size.Offered).Select(size => size.Text).Distinct().Count() <= 1)));

    [Fact]
    public void Items_come_in_three_phases_in_the_order_of_the_journey()
    {
        var phases = KitList.For(Example).Items.Select(item => item.Phase).ToList();

        Assert.Equal(phases.Order(), phases);
        Assert.Equal([KitPhase.BeforeDeparture, KitPhase.UnderWay, KitPhase.Handoff], phases.Distinct());
    }

    /// <summary>Textbook of Neonatal Resuscitation, 6th ed., 2011, pp 162-163: 1,850 g and 32 weeks fall in one row; half a size either side (Pediatrics 2024).</summary>
    [Fact]
    public void The_example_infant_gets_one_tube_and_the_half_sizes_beside_it()
    {
        var tube = Item(Example, "tracheal-tube");

        Assert.Equal("3.0 mm", tube.Size);
        Assert.Equal("2.5 and 3.5 mm", tube.SpareSize);
        Assert.False(tube.NeedsConfirmation);
        Assert.Equal("weight 1,850 g, gestation 32 weeks", Assert.Single(tube.Sizes).Basis);
        Assert.Equal("6–8 Fr", Item(Example, "tube-suction-catheter").Size);
    }

    [Theory]
    [InlineData(999, "2.5 mm", false)]
    [InlineData(1_000, "3.0 mm", false)]
    [InlineData(1_999, "3.0 mm", false)]
    [InlineData(2_000, "3.0 or 3.5 mm", true)]
    [InlineData(2_001, "3.5 mm", false)]
    [InlineData(3_000, "3.5 mm", true)]
    [InlineData(3_001, "3.5 mm", true)]
    public void A_weight_in_two_rows_of_the_source_shows_both(int grams, string size, bool needsConfirmation)
    {
        // Weeks of the same row, so that only the weight's own edge can ask.
        var weeks = grams switch { < 1_000 => 27, <= 1_999 => 30, 2_000 => 34, 2_001 => 36, 3_000 => 37, _ => 39 };

        var tube = Item(Example with { WeightGrams = grams, GestationWeeks = weeks }, "tracheal-tube");

        Assert.Equal(size, tube.Size);
        Assert.Equal(needsConfirmation, tube.NeedsConfirmation);
    }

    [Fact]
    public void Weight_and_gestation_of_different_rows_show_both_sizes_and_a_caution()
    {
        var query = Example with { WeightGrams = 1_500, GestationWeeks = 37 };

        Assert.Equal("3.0 or 3.5 mm", Item(query, "tracheal-tube").Size);
        Assert.True(Item(query, "tracheal-tube").NeedsConfirmation);
        Assert.Contains(KitList.For(query).Cautions, caution => caution.Text.Contains("different rows", StringComparison.Ordinal));
        Assert.DoesNotContain(KitList.For(Example).Cautions, caution => caution.Text.Contains("different rows", StringComparison.Ordinal));
    }

    [Fact]
    public void Without_weight_and_gestation_the_list_spans_every_band_and_says_so()
    {
        var list = KitList.For(Example with { WeightGrams = null, GestationWeeks = null });
        var tube = list.Items.Single(item => item.Id == "tracheal-tube");

        Assert.Equal(2, list.Spans.Count);
        Assert.Equal("2.5 or 3.0 or 3.5 mm", tube.Size);
        // Nothing is named as a spare that stands elsewhere as not to be carried: which sizes are spares, the confirmed one decides.
        Assert.Equal("0.5 mm either side of the one confirmed (2.0 to 4.0)", tube.SpareSize);
        Assert.All(tube.Sizes.Where(one => !one.Offered), one => Assert.Matches(@"It travels as the spare beside (2\.5|3\.5) mm, if that is confirmed\.$", one.Note));
        Assert.Equal(["2.0 mm", "4.0 mm"], tube.Sizes.Where(one => !one.Offered).Select(one => one.Text).Order());
        Assert.True(tube.NeedsConfirmation);
        Assert.Equal("35 or 42 or 50–60 mm", list.Items.Single(item => item.Id == "face-mask").Size);
        Assert.Empty(KitList.For(Example).Spans);
    }

    [Fact]
    public void Without_weight_the_tube_goes_by_gestation_and_asks()
    {
        var list = KitList.For(Example with { WeightGrams = null });
        var tube = list.Items.Single(item => item.Id == "tracheal-tube");

        Assert.Equal("3.0 mm", tube.Size);
        Assert.True(tube.NeedsConfirmation);
        Assert.Contains("Weight is not known", Assert.Single(list.Spans), StringComparison.Ordinal);
    }

    /// <summary>Kempley 2008 table: 32 weeks 7.0 cm; regressions 7.214 and 7.753 cm; Tochen 1979: 1.85 + 6 = 7.85 cm.</summary>
    [Fact]
    public void Each_depth_stands_beside_its_own_source()
    {
        var depth = Item(Example, "oral-tube-depth");

        Assert.Equal("7.9 or 7.0 or 7.2 or 7.8 cm or distance from nasal septum to ear tragus in cm + 1: measure", depth.Size);
        Assert.Equal(["KS-17", "KS-18", "KS-23", "KS-28", "KS-29"], depth.Sizes.Select(size => size.RuleId));
        Assert.Contains("Tochen", depth.Sizes[0].Source.Title, StringComparison.Ordinal);
    }

    /// <summary>The longer formula runs deep (KS-38) and the emergency depth is another thing (KS-40): none of the three stands alone.</summary>
    [Fact]
    public void A_depth_that_needs_a_weight_stays_in_words_until_the_weight_is_known()
    {
        Assert.Equal(
            "2.0–4.0 cm or (3 × weight in kg + 9) ÷ 2 or (3 × weight in kg + 9) ÷ 2 + 1",
            Item(Example with { WeightGrams = null }, "umbilical-vein-depth").Size);
        Assert.Equal("7.3 or 8.3 or 2.0–4.0 cm", Item(Example, "umbilical-vein-depth").Size);
    }

    /// <summary>PR-153 (common practice) against Wilkes, Anaesthesia 2011;66:40-51 (KS-45, about 3 kg).</summary>
    [Theory]
    [InlineData(1_850, true)]
    [InlineData(2_999, true)]
    [InlineData(3_000, false)]
    [InlineData(null, true)]
    public void A_filter_on_the_bag_below_its_weight_limit_shows_both_rules_and_asks(int? grams, bool asks)
    {
        var filter = Item(Example with { WeightGrams = grams, GestationWeeks = 38 }, "viral-filter-bag");

        Assert.Equal(asks, filter.NeedsConfirmation);
        Assert.Equal(asks, filter.Asks.Any(ask => ask.RuleId == "KS-45"));
        Assert.Contains("Common practice", filter.Why, StringComparison.Ordinal);
    }

    /// <summary>
    /// PR-153 (common practice) against the exchanger's limit, Wilkes, Anaesthesia 2011;66:40-51 (KS-44, about 2.5 kg): a viral filter
    /// that is also an exchanger meets it.
    /// </summary>
    [Theory]
    [InlineData(2_499, true)]
    [InlineData(2_500, false)]
    [InlineData(null, true)]
    public void A_filter_that_is_also_an_exchanger_shows_its_own_limit(int? grams, bool asks) =>
        Assert.Equal(asks, Item(Example with { WeightGrams = grams }, "viral-filter-bag").Asks.Any(ask => ask.RuleId == "KS-44"));

    /// <summary>
    /// Wilkes, Anaesthesia 2011;66:40-51 (KS-45, about 3 kg). Where airborne precautions ask for a filter all the same (PR-153, common
    /// practice), nothing is refused: both rules are shown.
    /// </summary>
    [Theory]
    [InlineData(2_999, PrecautionSet.Contact, true)]
    [InlineData(3_000, PrecautionSet.Contact, false)]
    [InlineData(null, PrecautionSet.Contact, false)]
    [InlineData(2_999, PrecautionSet.Airborne, false)]
    public void A_filter_at_the_airway_below_its_weight_limit_is_refused_unless_airborne_precautions_ask_for_one(
        int? grams, PrecautionSet precautions, bool refused)
    {
        var query = Example with { WeightGrams = grams, GestationWeeks = 38, Precautions = precautions, Devices = [KitDevice.AirwayFilter] };

        var list = KitList.For(query);

        Assert.Equal(refused, list.Refused.Any(refusal => refusal.RuleId == "KS-45"));
        Assert.Equal(!refused, Lists(query, "airway-filter"));
        if (grams is null or < 3_000 && !refused)
        {
            var rules = Item(query, "airway-filter").Asks.Select(ask => ask.RuleId);
            Assert.Equal(precautions == PrecautionSet.Airborne ? ["KS-45", "PR-153"] : ["KS-45"], rules);
        }
    }

    /// <summary>
    /// Two people compare identity bands (NCMEC 2014, PR-041), feel the flow of a cylinder (NHS 2018 and 2023, PR-021), change one over
    /// (project proposal, PR-076), read back the wall outlet (HSIB, PR-044), take over tube and lines (common practice, PR-158) and look
    /// at each other's respirator (PR-031).
    /// </summary>
    [Fact]
    public void Two_people_check_what_a_second_look_has_a_source_for()
    {
        var items = KitList.For(Example).Items.Where(item => item.TwoPeople).ToList();

        Assert.Equal(
            ["air-cylinder", "identity-bands-arrival", "identity-bands-departure", "oxygen-cylinder", "secured-tube", "spare-oxygen-cylinder", "wall-hoses", "wear-airborne-crew", "wear-airborne-helper"],
            items.Select(item => item.Id).Order(StringComparer.Ordinal));
        Assert.All(items, item => Assert.True(item.SafetyCritical, item.Id));
    }

    /// <summary>
    /// Rows from memory, or beside an edition that was revised since (KS-19, 31, 33 to 35, 40 to 43), carry the day on which they were
    /// written down and ask. Asked of every query in which they stand.
    /// </summary>
    [Fact]
    public void A_recalled_row_carries_its_date_and_asks() => AnyQuery.Sample(query =>
    {
        string[] recalled = ["KS-19", "KS-31", "KS-33", "KS-34", "KS-35", "KS-40", "KS-41", "KS-42", "KS-43"];
        foreach (var item in KitList.For(query).Items)
        {
            Assert.All(item.Sizes, size => Assert.Equal(recalled.Contains(size.RuleId), size.Recalled is not null));
            if (item.Sizes.Any(size => size.Recalled is not null))
                Assert.True(item.NeedsConfirmation, item.Id);
        }
    });

    /// <summary>
    /// Weight + 6 (KS-17, Tochen 1979) and the longer venous-catheter formula (KS-38, Shukla as restated 2013) run deep: wherever they
    /// stand, another rule stands beside them.
    /// </summary>
    [Theory]
    [InlineData("oral-tube-depth", "KS-17")]
    [InlineData("umbilical-vein-depth", "KS-38")]
    public void A_rule_that_runs_deep_is_never_the_only_figure(string id, string deep) => AnyQuery.Sample(query =>
    {
        var item = Item(query, id);

        Assert.Contains(item.Sizes, size => size.RuleId == deep && size.Note!.Contains("never the only figure", StringComparison.Ordinal));
        Assert.Contains(item.Sizes, size => size.RuleId != deep && size.Offered && size.Text.Length > 0);
        Assert.True(item.NeedsConfirmation, id);
    });

    /// <summary>Dead space 10 to 30 mL: Crit Care Res Pract 2012 (KS-50); 5 mL/kg is a project assumption. 10 ÷ 9.25 = 108.1 %, 30 ÷ 9.25 = 324.3 %.</summary>
    [Fact]
    public void The_dead_space_caution_shows_its_working_and_rounds_up()
    {
        var caution = KitList.For(Example).Cautions.Single(note => note.RuleId == "KS-50").Text;

        Assert.Contains("10 mL ÷ (1.85 kg × 5 mL/kg) = 109 %", caution, StringComparison.Ordinal);
        Assert.Contains("30 mL ÷ (1.85 kg × 5 mL/kg) = 325 %", caution, StringComparison.Ordinal);
        Assert.DoesNotContain(KitList.For(Example with { Precautions = PrecautionSet.Contact }).Cautions, note => note.RuleId == "KS-50");
    }

    /// <summary>Zannin et al., Pediatr Res 2020 (KS-47).</summary>
    [Fact]
    public void An_exchanger_with_a_heated_humidifier_is_refused_with_the_reason()
    {
        var query = Example with { WeightGrams = 3_500, GestationWeeks = 39, Devices = [KitDevice.HeatedHumidifier, KitDevice.HeatAndMoistureExchanger] };

        var refusal = Assert.Single(KitList.For(query).Refused);

        Assert.Equal("KS-47", refusal.RuleId);
        Assert.Contains("water raises its resistance", refusal.Reason, StringComparison.Ordinal);
        Assert.False(Lists(query, "heat-and-moisture-exchanger"));
        Assert.False(Lists(query, "heated-humidifier"));
    }

    /// <summary>Wilkes, Anaesthesia 2011;66:40-51 (KS-44, about 2.5 kg).</summary>
    [Theory]
    [InlineData(2_499, true, false)]
    [InlineData(2_500, false, false)]
    [InlineData(null, false, true)]
    public void An_exchanger_below_its_weight_limit_is_refused_and_asked_for_where_the_weight_is_unknown(int? grams, bool refused, bool asked)
    {
        var query = Example with { WeightGrams = grams, Devices = [KitDevice.HeatAndMoistureExchanger] };

        var list = KitList.For(query);

        Assert.Equal(refused, list.Refused.Any(refusal => refusal.RuleId == "KS-44"));
        Assert.Equal(!refused, Lists(query, "heat-and-moisture-exchanger"));
        Assert.Equal(asked, list.Items.Any(item => item.Id == "heat-and-moisture-exchanger" && item.NeedsConfirmation));
    }

    /// <summary>Davis et al., Neonatology 2020 (KS-48).</summary>
    [Fact]
    public void A_filter_before_a_bubble_generator_is_refused() =>
        Assert.Equal("KS-48", Assert.Single(KitList.For(Example with
        {
            Support = RespiratorySupport.Cpap,
            Devices = [KitDevice.FilterBeforeBubbleGenerator],
        }).Refused).RuleId);

    /// <summary>Course study notes (TH-09): below 32 weeks.</summary>
    [Theory]
    [InlineData(31, true)]
    [InlineData(32, false)]
    [InlineData(null, true)]
    public void Plastic_wrap_travels_below_32_weeks_and_is_asked_where_gestation_is_unknown(int? weeks, bool listed) =>
        Assert.Equal(listed, Lists(Example with { GestationWeeks = weeks }, "plastic-wrap"));

    [Fact]
    public void No_row_for_an_infant_is_a_local_decision_and_not_a_guess()
    {
        var airway = Item(Example with { WeightGrams = 5_500, GestationWeeks = 42 }, "supraglottic-airway");

        Assert.Equal("no rule covers this infant: a local decision", airway.Size);
        Assert.True(airway.NeedsConfirmation);
    }

    /// <summary>European Resuscitation Council 2015 (TH-06) and World Health Organization (TH-01) print the same range.</summary>
    [Fact]
    public void The_temperature_is_a_printed_range_with_two_sources()
    {
        var probe = Item(Example, "temperature-probe");

        Assert.Equal("36.5–37.5 °C", probe.Size);
        Assert.Equal(["TH-06", "TH-01"], probe.Sizes.Select(size => size.RuleId));
    }

    [Theory]
    [InlineData(PrecautionSet.Airborne, "wear-airborne-crew", "respirator")]
    [InlineData(PrecautionSet.Airborne | PrecautionSet.Droplet | PrecautionSet.Contact, "wear-airborne-crew", "respirator")]
    [InlineData(PrecautionSet.Droplet | PrecautionSet.Contact, "wear-droplet-crew", "Mask")]
    [InlineData(PrecautionSet.Contact, "wear-contact-crew", "Gown")]
    public void Protective_wear_of_the_crew_goes_by_the_strictest_precaution(PrecautionSet precautions, string id, string piece)
    {
        var worn = KitList.For(Example with { Precautions = precautions }).Items
            .Where(item => item.Id.StartsWith("wear-", StringComparison.Ordinal) && item.CarriedBy == TransportRole.EveryCareGiver);

        var set = Assert.Single(worn);
        Assert.Equal(id, set.Id);
        Assert.Contains(piece, set.Name, StringComparison.Ordinal);
        Assert.Equal(QuantityBasis.Person, set.QuantityPer);
    }

    [Fact]
    public void The_helper_in_the_same_air_keeps_the_respirator() =>
        Assert.StartsWith("Fit-tested respirator", Item(Example, "wear-airborne-helper").Name, StringComparison.Ordinal);

    /// <summary>AARC position statement (PR-014).</summary>
    [Theory]
    [InlineData(RespiratorySupport.InvasiveVentilation, 1)]
    [InlineData(RespiratorySupport.NonInvasiveVentilation, 1)]
    [InlineData(RespiratorySupport.BagMaskVentilation, 1)]
    [InlineData(RespiratorySupport.SelfVentilating, 0)]
    public void A_carbon_dioxide_monitor_goes_with_every_ventilated_infant(RespiratorySupport support, int monitors) =>
        Assert.Equal(monitors, KitList.For(Example with { Support = support }).Items.Count(item => item.Name == "Carbon-dioxide monitor"));

    [Fact]
    public void Nobody_but_a_clinician_can_own_the_rules_and_the_list_says_so() =>
        Assert.Contains(KitList.For(Example).Cautions, caution =>
            caution.RuleId == "owner" && caution.Text.Contains("no clinical owner has signed", StringComparison.Ordinal));

    [Theory]
    [InlineData(2, 32, 9)]
    [InlineData(299, 32, 9)]
    [InlineData(6_001, 32, 9)]
    [InlineData(1_850, 21, 9)]
    [InlineData(1_850, 45, 9)]
    [InlineData(1_850, 32, 0)]
    [InlineData(1_850, 32, 1_441)]
    public void A_figure_outside_its_limits_is_refused(int grams, int weeks, int minutes) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            KitList.For(Example with { WeightGrams = grams, GestationWeeks = weeks, JourneyMinutes = minutes }));

    [Fact]
    public void A_weight_that_is_more_often_a_slip_is_questioned() =>
        Assert.Contains(KitList.For(Example with { WeightGrams = 499, GestationWeeks = 23 }).Cautions, caution =>
            caution.Text.Contains("read the scale again", StringComparison.Ordinal));
}

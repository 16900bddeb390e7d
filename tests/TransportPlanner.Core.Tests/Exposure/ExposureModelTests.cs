using CsCheck;
using MathNet.Numerics.Integration;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.OdeSolvers;
using TransportPlanner.Core.Exposure;
using TransportPlanner.Core.Tests.Reference;

namespace TransportPlanner.Core.Tests.Exposure;

public sealed class ExposureModelTests
{
    private static readonly Dictionary<string, IReadOnlyDictionary<string, string>> Cases = ReferenceFile.Rows("wells-riley-cases.csv")
        .Concat(ReferenceFile.Rows("zone-model-cases.csv")).ToDictionary(row => row["id"]);

    /// <summary>
    /// Kinds for which the product has no function; docs/exposure.md says why. Everything that ends in an infection probability is among
    /// them on purpose, and stays.
    /// </summary>
    private static readonly string[] NotInTheProduct =
    [
        "dose_response", "attack_back_calculation", "attack_rescale", "steady_state", "expected_cases", "required_flow", "rebreathed_fraction",
        "rebreathed_risk", "mask_factor", "additive_dose", "source_scaling", "newborn_breathing",
        "steady", "steady_ratio", "eigenvalue", "door_event", "direct", "through_anteroom", "swept_volume", "leakage", "decay_factor", "ach_for_tenfold",
    ];

    private static readonly Gen<(double Volume, double Loss, double Dwell)> Places =
        Gen.Select(Gen.Double[5, 3_000], Gen.Double[0.1, 70], Gen.Double[0, 0.5]);

    public static TheoryData<string> Ids() => [.. Cases.Values.Where(IsUsed).Select(row => row["id"])];

    /// <summary>
    /// wells-riley-cases.csv (dose rows: Gammaitoni and Nucci 1997; average after Miller et al. 2021) and zone-model-cases.csv (car after
    /// van Rijn et al. 2020; doorway). The row's source strength and breathing rate are multiplied on here: the product knows neither.
    /// </summary>
    [Theory]
    [MemberData(nameof(Ids))]
    public void Doses_cars_and_doorways_agree_with_the_reference_rows(string id)
    {
        var row = Cases[id];
        var of = row["kind"] == "envelope" ? [] : Inputs.InputsOf(row);
        double Or(string name, double otherwise) => of.GetValueOrDefault(name, otherwise);
        double Source() => Or("infectors", 1) * of["quanta_per_h"];
        double Seconds(string name) => of[name] / 3_600;
        double CarEnd() => of["E_quanta_h"] * ExposureModel.ConcentrationAtEnd(of["volume_m3"], of["loss_per_h"], Seconds("ride_s"));
        double Doorway() => ExposureModel.DoorwayFlow(
            of["width_m"], of["height_m"], of["temperature_difference_K"], of["mean_temperature_K"], of["discharge_coefficient"]);

        var value = row["kind"] switch
        {
            "transient" or "small_x_limit" => Source() * of["breathing_m3_h"] * ExposureModel.DoseDuring(of["volume_m3"], of["loss_per_h"], of["hours"]),
            "dose_ratio" => ExposureModel.DoseDuring(1, of["x"], 1) * of["x"],
            "average_concentration" => Source() * ExposureModel.DoseDuring(of["volume_m3"], of["loss_per_h"], of["hours"]) / of["hours"],
            "concentration_from_zero" => Source() * ExposureModel.ConcentrationAtEnd(of["volume_m3"], of["loss_per_h"], of["hours"]),
            "residual_dose" => of["breathing_m3_h"]
                * ExposureModel.DoseAfter(of["concentration_quanta_m3"], of["loss_per_h"], of["hold_minutes"] / 60, of["hours"]),
            "car_end" => CarEnd(),
            "escort_dose" => of["breathing_m3_h"] * of["E_quanta_h"] * ExposureModel.DoseDuring(of["volume_m3"], of["loss_per_h"], Seconds("ride_s")),
            "next_rider_dose" => of["breathing_m3_h"] * ExposureModel.DoseAfter(
                CarEnd(), of["loss_per_h"], of["hold_minutes"] / 60, Seconds("next_ride_s"), Or("hold_loss_per_h", of["loss_per_h"])),
            "doorway_flow" => Doorway(),
            "doorway_volume" => Doorway() * of["open_s"],
            var kind => throw new NotSupportedException($"No function for {kind}."),
        };

        var expected = row.Number("expected");
        var relative = row.TryGetValue("tolerance_relative", out _) ? row.Number("tolerance_relative") : row.Number("tolerance");
        Assert.Equal(expected, value, relative * expected);
    }

    [Fact]
    public void Every_row_is_used_or_its_kind_is_named_as_not_in_the_product()
    {
        // 7 transient doses, 6 ratios, 1 limit, 2 averages, 1 concentration, 3 residual doses; 6 of the car, 5 of the doorway.
        Assert.Equal(31, Ids().Count);
        Assert.Equal(55 + 53, Cases.Count);
        Assert.All(
            Cases.Values.Where(row => !IsUsed(row)),
            row => Assert.Contains(row["kind"], NotInTheProduct.Append("envelope").Append("transient")));
    }

    /// <summary>WR-85: three children fell ill who came 60–75 min after the source had left (Remington et al., JAMA 1985). An oracle of direction.</summary>
    [Fact]
    public void Something_is_left_75_minutes_after_the_source_at_two_air_changes() =>
        Assert.True(ExposureModel.DoseAfter(ExposureModel.ConcentrationAtEnd(120, 2, 0.25), 2, 75.0 / 60, 0.25) > 0);

    // Second opinion: the differential equations dC/dt = 1/V − λC and d(dose)/dt = C, by a Runge-Kutta solver, source on and then off.
    [Fact]
    public void The_closed_forms_agree_with_integrating_the_differential_equations() =>
        Gen.Select(Places, Gen.Double[0, 0.5], Gen.Double[0.01, 1]).Sample(
            (place, hold, stay) =>
            {
                var (volume, loss, dwell) = place;
                Vector<double> Integrate(Vector<double> start, double hours, double source) => RungeKutta.FourthOrder(
                    start, 0, hours, 2_000, (_, y) => Vector<double>.Build.Dense([source / volume - loss * y[0], y[0]]))[^1];

                var there = Integrate(Vector<double>.Build.Dense(2), dwell, 1);
                var held = Integrate(there, hold, 0);
                var later = Integrate(held, stay, 0);

                Assert.Equal(there[1], ExposureModel.DoseDuring(volume, loss, dwell), there[1] * 1e-6 + 1e-15);
                Assert.Equal(there[0], ExposureModel.ConcentrationAtEnd(volume, loss, dwell), there[0] * 1e-6 + 1e-15);
                Assert.Equal(
                    later[1] - held[1], ExposureModel.DoseAfter(ExposureModel.ConcentrationAtEnd(volume, loss, dwell), loss, hold, stay),
                    (later[1] - held[1]) * 1e-5 + there[1] * 1e-9 + 1e-15);
            },
            iter: 60);

    [Fact]
    public void The_all_time_sum_is_the_dose_during_and_ever_after_and_agrees_with_quadrature() =>
        Gen.Select(Places, Gen.Double[0, 60]).Sample(
            (place, people) =>
            {
                var (volume, loss, dwell) = place;
                var later = ExposureModel.DoseAfter(ExposureModel.ConcentrationAtEnd(volume, loss, dwell), loss, 0, double.PositiveInfinity);
                var parts = ExposureModel.SharedAirMinutes(people * (ExposureModel.DoseDuring(volume, loss, dwell) + later));
                var quadrature = people * 60 * 300 * (
                    GaussLegendreRule.Integrate(t => (1 - Math.Exp(-loss * t)) / (loss * volume), 0, dwell, 64)
                    + GaussLegendreRule.Integrate(t => (1 - Math.Exp(-loss * dwell)) / (loss * volume) * Math.Exp(-loss * t), 0, 40 / loss, 512));

                var sum = ExposureModel.AllTimeMinutes(people, dwell * 60, loss, volume);

                Assert.Equal(sum, parts, sum * 1e-12 + 1e-15);
                Assert.Equal(sum, quadrature, sum * 1e-9 + 1e-9);
            },
            iter: 200);

    [Fact]
    public void Small_losses_keep_their_digits_across_the_change_from_series_to_formula()
    {
        // The limit as λτ goes to 0: τ²/(2V) and τ/V.
        Assert.Equal(0.25 / 100, ExposureModel.DoseDuring(50, 1e-12, 0.5), 1e-14);
        Assert.Equal(0.01, ExposureModel.ConcentrationAtEnd(50, 1e-12, 0.5), 1e-13);
        foreach (var x in new[] { 0.5 - 1e-9, 0.5, 0.5 + 1e-9 })
        {
            Assert.Equal((x + Math.Exp(-x) - 1) / (x * x), ExposureModel.DoseDuring(1, x, 1), 1e-14);
            Assert.Equal((1 - Math.Exp(-x)) / x, ExposureModel.ConcentrationAtEnd(1, x, 1), 1e-14);
        }
    }

    [Fact]
    public void A_longer_dwell_never_lowers_exposure_and_a_hold_never_raises_it() =>
        Gen.Select(Places, Gen.Double[0, 0.5], Gen.Double[0, 120], Gen.Double[0, 60]).Sample((place, longer, hold, more) =>
        {
            var (volume, loss, dwell) = place;
            double Held(double hours, double minutes) => ExposureModel.HeldMinutes(3, hours * 60, loss, volume, minutes);
            const double rounding = 1e-12;

            Assert.True(ExposureModel.DoseDuring(volume, loss, dwell + longer) >= ExposureModel.DoseDuring(volume, loss, dwell) * (1 - rounding));
            Assert.True(Held(dwell + longer, hold) >= Held(dwell, hold) * (1 - rounding));
            Assert.True(Held(dwell, hold + more) <= Held(dwell, hold) * (1 + rounding));
            Assert.True(Held(dwell, hold) <= ExposureModel.AllTimeMinutes(3, dwell * 60, loss, volume) * (1 + rounding));
        });

    [Fact]
    public void Everybody_in_a_small_place_is_close_by_and_a_share_of_a_large_one()
    {
        Assert.Equal(6, ExposureModel.CloseByMinutes(3, 10, 2), 9);
        Assert.Equal(3 * 4 * Math.PI / 100 * 2, ExposureModel.CloseByMinutes(3, 100, 2), 9);
    }

    [Fact]
    public void An_open_door_lets_out_its_flow_at_the_steady_concentration_of_the_room()
    {
        // 0.1 m³/s for 10 s from a room that steadily holds 1/(λV) = 1/(6 · 50) of an hour's source: 1 m³ ÷ 300 m³/h = 0.2 min.
        Assert.Equal(0.2, ExposureModel.EquivalentDwellMinutes(0.1, 10.0 / 60, 6, 50), 12);
    }

    /// <summary>
    /// PE-16 of published-errors.csv: 5480 quanta per hour, copied wrongly from 93 a minute, which are 5580. A product without emission rates
    /// has none to copy; they span three to four orders of magnitude for one disease.
    /// </summary>
    [Fact]
    public void No_emission_rate_and_no_infection_probability_is_in_the_product() =>
        Assert.DoesNotContain(
            typeof(ExposureModel).Assembly.GetTypes().SelectMany(type => type.GetMembers().Select(member => member.Name)),
            name => name.Contains("Quanta", StringComparison.Ordinal) || name.Contains("Infection", StringComparison.Ordinal));

    [Theory]
    [InlineData(0, 2, 1)]
    [InlineData(100, 0, 1)]
    [InlineData(100, 2, -1)]
    [InlineData(100, double.NaN, 1)]
    public void A_place_without_volume_or_loss_is_refused(double volume, double loss, double dwell) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ExposureModel.DoseDuring(volume, loss, dwell));

    /// <summary>A transient of two or three coupled zones needs a zone solver; one of a single place is a dose row.</summary>
    private static bool IsUsed(IReadOnlyDictionary<string, string> row) =>
        !NotInTheProduct.Contains(row["kind"]) && row["kind"] != "envelope" && row["output"] != "probability"
        && !(row["kind"] == "transient" && row["id"].StartsWith("ZC", StringComparison.Ordinal));
}

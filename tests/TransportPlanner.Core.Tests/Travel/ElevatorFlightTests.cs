using MathNet.Numerics.OdeSolvers;
using TransportPlanner.Core.Tests.Reference;
using TransportPlanner.Core.Travel;
using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Tests.Travel;

public sealed class ElevatorFlightTests
{
    private static readonly Dictionary<string, IReadOnlyDictionary<string, string>> Flights =
        ReferenceFile.Rows("lift-flight-time.csv").ToDictionary(row => row["id"]);

    private static readonly Dictionary<string, IReadOnlyDictionary<string, string>> Rides =
        ReferenceFile.Rows("lift-wait-cases.csv").ToDictionary(row => row["id"]);

    private static readonly Dictionary<FlightBranch, string> Letters = new()
    {
        [FlightBranch.FullSpeed] = "A",
        [FlightBranch.FullAcceleration] = "B",
        [FlightBranch.Short] = "C",
        [FlightBranch.SlowFullSpeed] = "D",
    };

    /// <summary>Kinds of lift-wait-cases.csv for which the product has no function; docs/travel.md says why.</summary>
    private static readonly string[] NotInTheProduct =
        ["highest_reversal", "probable_stops", "round_trip", "interval", "capacity_5_min", "waiting_ratio", "random_arrival_wait"];

    public static TheoryData<string> FlightIds() => [.. Flights.Keys];
    public static TheoryData<string> RideIds() => [.. Rides.Values.Where(row => !NotInTheProduct.Contains(row["kind"])).Select(row => row["id"])];

    /// <summary>lift-flight-time.csv, every row: derived from Peters, ideal lift kinematics, 1995, as used in CIBSE Guide D.</summary>
    [Theory]
    [MemberData(nameof(FlightIds))]
    public void Flight_times_and_branches_agree_with_the_reference_rows(string id)
    {
        var row = Flights[id];
        var (d, v, a, j) = (row.Number("distance_m"), row.Number("speed_m_s"), row.Number("acceleration_m_s2"), row.Number("jerk_m_s3"));

        Assert.Equal(row.Number("expected_flight_time_s"), ElevatorFlight.Seconds(d, v, a, j), row.Number("tolerance_s"));
        Assert.Contains(Letters[ElevatorFlight.BranchOf(d, v, a, j)], row["expected_branch"].Split(" or "));
    }

    // Second opinion: integrate the profile of jerk phases of lift-kinematics.md with a Runge-Kutta solver and look how far the car got.
    [Theory]
    [MemberData(nameof(FlightIds))]
    public void Integrating_the_jerk_covers_the_distance_and_stands_still_at_the_end(string id)
    {
        var row = Flights[id];
        var (d, v, a, j) = (row.Number("distance_m"), row.Number("speed_m_s"), row.Number("acceleration_m_s2"), row.Number("jerk_m_s3"));
        var total = ElevatorFlight.Seconds(d, v, a, j);
        double[] phases = ElevatorFlight.BranchOf(d, v, a, j) switch
        {
            FlightBranch.FullSpeed => Phases(a / j, v / a - a / j, d / v - v / a - a / j),
            FlightBranch.FullAcceleration => Phases(a / j, total / 2 - 2 * a / j, 0),
            FlightBranch.Short => Phases(total / 4, 0, 0),
            _ => Phases(Math.Sqrt(v / j), 0, d / v - 2 * Math.Sqrt(v / j)),
        };

        var state = MathNet.Numerics.LinearAlgebra.Vector<double>.Build.Dense(3);
        foreach (var (seconds, jerk) in phases.Zip([j, 0, -j, 0, -j, 0, j]))
        {
            if (seconds > 0)
            {
                state = RungeKutta.FourthOrder(state, 0, seconds, 50, (_, y) => MathNet.Numerics.LinearAlgebra.Vector<double>.Build.Dense([y[1], y[2], jerk]))[^1];
            }
        }

        Assert.Equal(total, phases.Sum(), 6);
        Assert.Equal(d, state[0], 5);
        Assert.Equal(0, state[1], 5);
        Assert.Equal(0, state[2], 5);

        static double[] Phases(double ramp, double held, double cruise) => [ramp, held, ramp, cruise, ramp, held, ramp];
    }

    /// <summary>lift-wait-cases.csv: ride_leg (MIL-HDBK-1191, 17.5.3.2 for loading), performance_time (Barney).</summary>
    [Theory]
    [MemberData(nameof(RideIds))]
    public void Rides_agree_with_the_reference_rows(string id)
    {
        var row = Rides[id];
        var of = Inputs.InputsOf(row);
        double Flight(double metres) => ElevatorFlight.Seconds(metres, of["speed_m_s"], of["acceleration_m_s2"], of["jerk_m_s3"]);
        static DurationEstimate Exactly(double seconds) => DurationEstimate.Exactly(seconds);

        var seconds = row["kind"] switch
        {
            "performance_time" => ElevatorFlight.PerformanceTime(
                Flight(of["floor_height_m"]), Exactly(of["door_open_s"]), Exactly(of["door_close_s"]), of["start_delay_s"], of["advance_opening_s"]).LikelySeconds,
            "ride_leg" => (ElevatorFlight.PerformanceTime(Flight(of["distance_m"]), Exactly(of["door_open_s"]), Exactly(of["door_close_s"]), 0, 0)
                + Exactly(of["load_s"]) + Exactly(of["unload_s"])).LikelySeconds,
            var kind => throw new NotSupportedException($"No function for {kind}."),
        };

        Assert.Equal(row.Number("expected"), seconds, row.Number("tolerance"));
    }

    [Fact]
    public void Every_row_is_used_or_its_kind_is_named_as_not_in_the_product() =>
        Assert.Equal(24, RideIds().Count + Rides.Values.Count(row => NotInTheProduct.Contains(row["kind"])));

    /// <summary>LW-31: random arrivals, interval 40 s (MIL-HDBK-1191), coefficient of variation 1.</summary>
    [Fact]
    public void An_unknown_call_wait_is_that_of_random_arrivals() =>
        Assert.Equal(Rides["LW-31"].Number("expected"), new TravelSettings().MeanCallWaitSeconds);

    [Fact]
    public void No_distance_takes_no_time_and_more_distance_never_less()
    {
        Assert.Equal(0, ElevatorFlight.Seconds(0, 1, 0.6, 0.9));
        foreach (var (v, a, j) in new[] { (1.0, 0.6, 0.9), (2.5, 1.0, 1.2), (0.3, 0.8, 0.5) })
        {
            var times = Enumerable.Range(0, 4_000).Select(i => ElevatorFlight.Seconds(i / 100.0, v, a, j)).ToArray();
            Assert.Equal(times.Order(), times);
        }
    }

    [Theory]
    [InlineData(-1, 1, 1, 1)]
    [InlineData(1, 0, 1, 1)]
    [InlineData(1, 1, double.NaN, 1)]
    [InlineData(1, 1, 1, double.PositiveInfinity)]
    public void Impossible_motion_is_refused(double d, double v, double a, double j) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ElevatorFlight.Seconds(d, v, a, j));
}

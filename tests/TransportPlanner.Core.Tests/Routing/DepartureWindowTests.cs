using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Routing;
using TransportPlanner.Core.Tests.FloorPlans;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.Routing;

/// <summary>Now, or a quarter-hour later: the hall has 8 people until 15:00 and 2 from then on, or the other way round.</summary>
public sealed class DepartureWindowTests
{
    private static readonly DateTimeOffset Quarter = new(2026, 3, 4, 14, 50, 0, TimeSpan.Zero);

    private static Sketch Halls(double before, double after) => Sketch.Parse("1 at 0: Delivery 5 | Hall 40 | Nursery 6")
        .With("Hall", place => place with { Occupancy = QuarterHourProfile.FromHours([.. Enumerable.Range(0, 24).Select(hour => hour < 15 ? before : after)]) });

    [Fact]
    public void Every_quarter_hour_that_begins_within_the_window_is_compared()
    {
        var set = Find(Halls(8, 8), window: 40);

        Assert.Equal(["14:50", "15:00", "15:15", "15:30"], set.Departures.Select(departure => departure.DepartAt.ToString("HH:mm", null)));
        Assert.Null(set.BestDeparture);
    }

    [Fact]
    public void Without_a_window_nothing_is_compared() => Assert.Empty(Find(Halls(8, 2), window: 0).Departures);

    [Fact]
    public void The_quarter_hour_with_fewer_people_is_named_with_its_exposure()
    {
        var set = Find(Halls(8, 2), window: 60);

        Assert.Equal(Quarter.AddMinutes(10), set.BestDeparture!.DepartAt);
        Assert.Equal((8, 2), (set.Departures[0].PeopleLikelyMet!.Value, set.BestDeparture.PeopleLikelyMet!.Value));

        // The cost of a crossing is proportional to the people in it, and the hall is the only place crossed.
        Assert.Equal(set.Departures[0].ExposureCost!.Value / 4, set.BestDeparture.ExposureCost!.Value, 1e-4);
        Assert.Equal(set.Routes[0].ExpectedSeconds, set.BestDeparture.QuickestSeconds);
    }

    [Fact]
    public void More_people_later_is_no_reason_to_wait() => Assert.Null(Find(Halls(2, 8), window: 60).BestDeparture);

    [Fact]
    public void Less_than_a_tenth_better_is_not_named()
    {
        Assert.Null(Find(Halls(8, 7.5), window: 60).BestDeparture);
        Assert.NotNull(Find(Halls(8, 7), window: 60).BestDeparture);
    }

    [Fact]
    public void Each_departure_is_what_a_query_of_its_own_says()
    {
        var departures = Find(Halls(8, 2), window: 60).Departures;

        Assert.All(departures, departure =>
        {
            var own = Find(Halls(8, 2), window: 0, departure.DepartAt);
            Assert.Equal(own.Front.Min(point => point.ExposureCost), departure.ExposureCost);
            Assert.Equal(own.Front[0].ExpectedSeconds, departure.QuickestSeconds);
        });
    }

    [Fact]
    public void A_closure_that_begins_later_leaves_that_quarter_hour_without_a_way()
    {
        var closure = new Closure("1", ClosureTarget.Place, "Hall", Quarter.AddMinutes(80), Quarter.AddMinutes(90), "cleaning", "site office");

        var set = Find(Halls(8, 2), window: 60, closures: closure);

        // A closure in the hour after departure forbids: it begins at 16:10, so from 15:15 on.
        Assert.Equal([true, true, false, false, false], set.Departures.Select(departure => departure.ExposureCost is not null));
    }

    [Fact]
    public void A_journey_that_runs_into_the_next_quarter_hour_says_who_is_there_then()
    {
        var late = Find(Halls(2, 8), window: 0, Quarter.AddMinutes(9.5)).Routes[0];
        var early = Find(Halls(2, 8), window: 0).Routes[0];

        Assert.Equal(new NextQuarter(Quarter.AddMinutes(10), 8), late.NextQuarter);
        Assert.Equal(2, late.PeopleLikelyMet);
        Assert.Null(early.NextQuarter);
    }

    private static RouteSet Find(Sketch sketch, int window, DateTimeOffset? departure = null, params ReadOnlySpan<Closure> closures) =>
        Assert.IsType<RouteOutcome.Found>(RouteFinder.Find(sketch.Graph, new()
        {
            From = "Delivery",
            To = "Nursery",
            Travel = new()
            {
                Conveyance = Conveyance.AssumedIncubator,
                Departure = departure ?? Quarter,
                HeldElevators = true,
                WithHelper = true,
                Closures = [.. closures],
            },
            Precautions = PrecautionSet.Airborne,
            DepartureWindow = TimeSpan.FromMinutes(window),
        })).Set;
}

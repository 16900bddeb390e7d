using CsCheck;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Plans;
using TransportPlanner.Core.Posts;
using TransportPlanner.Core.Precautions;
using TransportPlanner.Core.Tests.FloorPlans.Demonstration;
using TransportPlanner.Core.Tests.Reference;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.Plans;

/// <summary>
/// Small timelines added up by hand. The step times are this project's estimates (no source) but for kit (Brunsveld-Reinders 2015, 4.5 min a phase, adults),
/// contact wear (PD-04, PD-06) and hand hygiene (PD-03, common practice).
/// </summary>
public sealed class TimelineMakerTests
{
    private static readonly DateTimeOffset Go = new(2026, 5, 4, 2, 0, 0, TimeSpan.Zero);

    // There at 3:20 at the earliest, 5:00 usually, 6:40 nearly always. Posts from 1:30 and 0:10 before go until 2:00 and 5:00 after it; the car
    // captured 0:20 before go, given back 15:00 after it.
    private static TimelineRequest Request(Tempo tempo = Tempo.Planned) => new()
    {
        RouteId = "A",
        Tempo = tempo,
        Now = Go.AddHours(-2),
        Go = Go,
        Support = RespiratorySupport.InvasiveVentilation,
        Precautions = PrecautionSet.Airborne,
        WithHelper = true,
        Arrival = new(200, 300, 400),
        Posts = new()
        {
            RouteId = "A",
            Departure = Go,
            Places = [],
            Posts = [Post(-90, 120), Post(-10, 300)],
            QuietDoors = [],
            DoorsToOpen = [],
            Elevators =
            [
                new("C1", "Car 1", "L-2.A", "LD-2.A", AccessControl.Key, new(Go.AddSeconds(-20), Go.AddSeconds(60)), new(40, 50, 60), "L-4.A", Go.AddSeconds(900), true),
            ],
        },
        Aired = [new("D", Go.AddSeconds(30), Go.AddMinutes(70)), new("H", Go.AddSeconds(100), Go.AddMinutes(32)), new("K", Go.AddSeconds(200), Go.AddMinutes(34))],
    };

    private static Post Post(int from, int to) =>
        new() { Kind = PostKind.Door, Passage = $"D{from}", Place = "H", Window = new(Go.AddSeconds(from), Go.AddSeconds(to)), Doors = [], Say = "" };

    private static string Clock(DateTimeOffset instant) => instant.ToString("HH:mm:ss", System.Globalization.CultureInfo.InvariantCulture);

    private static string Line(TimelineStep step) => $"{step.Kind} {Clock(step.From)}{(step.To == step.From ? "" : $" {Clock(step.To)}")}{(step.Place is { } place ? $" {place}" : "")}";

    [Fact]
    public void Planned_steps_are_counted_back_from_go_and_forward_from_it()
    {
        var timeline = TimelineMaker.For(Request());

        // 10:00 + 3:00 + 4:30 + 0:15 + 2 turns × 6:00 + 15:00 + 5:00 + 2:00 + 4:00 + 0:30 = 56:15.
        Assert.Equal(TimeSpan.FromSeconds(600 + 180 + 270 + 15 + 2 * 360 + 900 + 300 + 120 + 240 + 30), timeline.Lead);
        Assert.Equal("00:56:15", $"{timeline.Lead}");
        Assert.Equal(
            [
                "Call 01:03:45 01:13:45", "Huddle 01:13:45 01:16:45", "Kit 01:16:45 01:21:15", "HandHygiene 01:21:15 01:21:30", "Donning 01:21:30 01:33:30",
                "Loading 01:33:30 01:48:30", "Trial 01:48:30 01:53:30",
                // Receiver and watcher watch each other, and are dressed by the earliest arrival: 2:03:20 − 2 turns × 6:00 − 0:15.
                "ReceiverDonning 01:51:05 02:03:20",
                // The helper, one person, is dressed by the go check: 1:59:30 − 6:15.
                "HelperDonning 01:53:15 01:59:30", "TimeOut 01:53:30 01:55:30", "Wipe 01:55:30 01:59:30",
                "PostsManned 01:58:30 01:59:50", "GoCheck 01:59:30 02:00:00", "ElevatorCaptured 01:59:40 02:01:00 Car 1",
                "Arrival 02:05:00 02:06:40",
                // 6:40 + 10:00 nearly always; doffing usually from 5:00 + 10:00, nearly always until 6:40 + 10:00 + 3 turns × 6:00.
                "HandOver 02:05:00 02:16:40", "Doffing 02:15:00 02:34:40",
                "PostsReleased 02:05:00", "ElevatorGivenBack 02:15:00 Car 1", "Airing 02:00:30 03:10:00 D", "Airing 02:03:20 02:34:00 K",
                // From the end of the hand-over; 60:00 after it nearly always.
                "IncubatorCleaning 02:15:00 03:16:40",
            ],
            timeline.ForGo.Steps.Select(Line));
        Assert.Equal([("Donning", 2), ("ReceiverDonning", 2), ("Doffing", 3)], timeline.ForGo.Steps.Where(step => step.Turns is not null).Select(step => ($"{step.Kind}", step.Turns!.Value)));
        Assert.Equal("01:21:15", Clock(timeline.ForGo.BareHandedUntil));
        Assert.Equal((TimeSpan.Zero, 0, null), (timeline.Short, timeline.Late.Length, timeline.FromNow));
    }

    [Fact]
    public void Urgent_steps_take_the_low_ends_and_doffing_is_not_hurried()
    {
        var timeline = TimelineMaker.For(Request(Tempo.Urgent));

        // 3:00 + 2:00 + 4:30 + 0:15 + 3:00 + 5:00 + 5:00 + 1:00 + 2:00 + 0:30 = 26:15.
        Assert.Equal("00:26:15", $"{timeline.Lead}");
        Assert.Equal("Doffing 02:15:00 02:34:40", Line(timeline.ForGo.Steps.Single(step => step.Kind == TimelineStepKind.Doffing)));
    }

    // 3 care givers: 3 turns, 2 turns (two, then one), 1 turn. 2:16:40 + turns × 6:00.
    [Theory]
    [InlineData(1, 3, "02:34:40")]
    [InlineData(2, 2, "02:28:40")]
    [InlineData(3, 1, "02:22:40")]
    [InlineData(4, 1, "02:22:40")]
    public void Taking_off_lasts_as_many_turns_as_the_site_has_watchers_for(int atOnce, int turns, string until)
    {
        var step = TimelineMaker.For(Request() with { Settings = new() { DoffingAtOnce = atOnce, DoffingAtOnceIsAssumed = false } }).ForGo.Steps.Single(step => step.Kind == TimelineStepKind.Doffing);

        Assert.Equal((turns, until), (step.Turns, Clock(step.To)));
        Assert.True(step.Lasts!.IsAssumed); // the 6:00 still are
    }

    // At the planned tempo 3 turns instead of 2 are 6:00 more; at the urgent tempo 2 instead of 1 are 3:00 more; more than planned are not taken.
    [Theory]
    [InlineData(Tempo.Planned, 3, 1, "01:02:15")]
    [InlineData(Tempo.Planned, 1, 1, "00:50:15")]
    [InlineData(Tempo.Urgent, 3, 2, "00:29:15")]
    [InlineData(Tempo.Urgent, 1, 2, "00:26:15")]
    public void Dressing_lasts_as_many_turns_as_the_site_says(Tempo tempo, int planned, int urgent, string lead) =>
        Assert.Equal(lead, $"{TimelineMaker.For(Request(tempo) with { Settings = new() { DonningTurns = new(planned, urgent, IsAssumed: false) } }).Lead}");

    [Fact]
    public void Without_precautions_nobody_takes_turns()
    {
        var steps = TimelineMaker.For(Request() with { Precautions = PrecautionSet.None }).ForGo.Steps;

        Assert.All(steps, step => Assert.Null(step.Turns));
        // Hand hygiene, all at once: 2:16:40 + 0:15.
        Assert.Equal("Doffing 02:15:00 02:16:55", Line(steps.Single(step => step.Kind == TimelineStepKind.Doffing)));
    }

    // The last has taken off at 2:34:40. K, left at 2:03:20, needs 30:40; H, left at 2:01:40, needs 30:20 and then is the last one; D needs 69:30.
    [Theory]
    [InlineData("K", "D 02:00:30 03:10:00", "K 02:34:40 03:05:20")]
    [InlineData("H", "D 02:00:30 03:10:00", "H 02:34:40 03:05:00")]
    [InlineData("D", "D 02:34:40 03:44:10", "K 02:03:20 02:34:00")]
    [InlineData("elsewhere", "D 02:00:30 03:10:00", "K 02:03:20 02:34:00")]
    [InlineData(null, "D 02:00:30 03:10:00", "K 02:03:20 02:34:00")]
    public void Air_of_the_place_of_taking_off_counts_from_when_the_last_has_taken_off(string? place, string origin, string last) =>
        Assert.Equal([origin, last], Aired(Request() with { DoffingPlace = place }));

    // Seen to fail: with the taking off counted although the hold ends later.
    [Fact]
    public void A_hold_that_outlasts_the_taking_off_decides() => Assert.Equal(
        ["D 02:00:30 03:10:00", "K 02:40:00 03:00:00"],
        Aired(Request() with { DoffingPlace = "K", Aired = [Request().Aired[0], new("K", Go.AddMinutes(40), Go.AddMinutes(60))] }));

    private static IEnumerable<string> Aired(TimelineRequest request) =>
        TimelineMaker.For(request).ForGo.Steps.Where(step => step.Kind == TimelineStepKind.Airing).Select(step => $"{step.Place} {Clock(step.From)} {Clock(step.To)}");

    [Theory]
    [InlineData(PrecautionSet.Airborne | PrecautionSet.Contact, true)]
    [InlineData(PrecautionSet.Contact, false)]
    [InlineData(PrecautionSet.None, false)]
    public void The_room_of_origin_is_cleaned_where_the_site_says_and_not_before_its_air_is_renewed(PrecautionSet cleanedFor, bool isCleaned)
    {
        // Airborne precautions are in force; left 20:00 late, so that the air is renewed 20:00 after 3:10:00.
        var timeline = TimelineMaker.For(Request() with { PlacesCleanedFor = cleanedFor, Now = Go + TimeSpan.FromMinutes(20) - TimeSpan.Parse("00:56:15") });

        Assert.Equal(isCleaned ? ["RoomCleaning 03:30:00 D"] : [], timeline.FromNow!.Steps.Where(step => step.Kind == TimelineStepKind.RoomCleaning).Select(Line));
    }

    [Fact]
    public void The_incubator_is_ready_again_after_what_the_site_says()
    {
        var settings = new TimelineSettings { IncubatorCleaning = StepTime.Of(45 * 60, "drill", isAssumed: false) };

        // 6:40 + 10:00 + 45:00, at either tempo.
        Assert.All(Enum.GetValues<Tempo>(), tempo => Assert.Contains("IncubatorCleaning 02:15:00 03:01:40", TimelineMaker.For(Request(tempo) with { Settings = settings }).ForGo.Steps.Select(Line)));
    }

    // Seen to fail: with the full minute rounded down, which left 45 s too few.
    [Fact]
    public void What_no_longer_fits_is_said_with_the_figure_and_counted_from_now()
    {
        var timeline = TimelineMaker.For(Request(Tempo.Urgent) with { Now = Go.AddMinutes(-20) });

        // 26:15 of 20:00: 6:15 short. The call had to go out at 1:33:45; huddle at 1:36:45 and kit at 1:38:45 too begin before 1:40:00, hand hygiene at 1:43:15 does not.
        Assert.Equal("00:06:15", $"{timeline.Short}");
        Assert.Equal(["Call", "Huddle", "Kit"], timeline.Late.Select(step => $"{step.Kind}"));
        // 1:40:00 + 26:15 = 2:06:15, up to the full minute.
        Assert.Equal("02:07:00", Clock(timeline.EarliestGo));
        Assert.Equal(timeline.EarliestGo, timeline.FromNow!.Go);
        Assert.Equal("01:40:45", Clock(timeline.FromNow.Begin));
        // Posts and car move with go by 7:00.
        Assert.Equal("PostsManned 02:05:30 02:06:50", Line(timeline.FromNow.Steps.Single(step => step.Kind == TimelineStepKind.PostsManned)));
        Assert.Equal("ElevatorGivenBack 02:22:00 Car 1", Line(timeline.FromNow.Steps.Single(step => step.Kind == TimelineStepKind.ElevatorGivenBack)));
        Assert.DoesNotContain(timeline.FromNow.Steps, step => step.IsBeforeGo && step.From < timeline.Now);
    }

    [Fact]
    public void A_team_that_leaves_now_is_ready_after_the_whole_lead_and_nearly_nothing_fits()
    {
        var timeline = TimelineMaker.For(Request(Tempo.Urgent) with { Now = Go });

        Assert.Equal(timeline.Lead, timeline.Short);
        Assert.Equal("02:27:00", Clock(timeline.EarliestGo));
        // Even the receiver: 3:20 − 3:15 leaves 5 s.
        Assert.Equal("ReceiverDonning 02:00:05 02:03:20", Line(timeline.ForGo.Steps.Single(step => step.Kind == TimelineStepKind.ReceiverDonning)));
        Assert.Equal(13, timeline.Late.Length);
    }

    [Fact]
    public void The_trial_is_only_for_a_ventilator_and_the_helper_only_where_one_goes()
    {
        var timeline = TimelineMaker.For(Request() with { Support = RespiratorySupport.HighFlowCannula, WithHelper = false });

        Assert.Equal("00:51:15", $"{timeline.Lead}"); // 5:00 less
        Assert.DoesNotContain(timeline.ForGo.Steps, step => step.Kind is TimelineStepKind.Trial or TimelineStepKind.HelperDonning);
        Assert.DoesNotContain(PlanRole.CleanHelper, timeline.ForGo.Steps.SelectMany(step => step.Who));
        Assert.Contains(TimelineMaker.For(Request() with { Support = RespiratorySupport.NonInvasiveVentilation }).ForGo.Steps, step => step.Kind == TimelineStepKind.Trial);
    }

    [Fact]
    public void Posts_that_begin_early_move_the_call_and_nothing_else()
    {
        // The first post 60:00 before go, and officers are called within 10:00 before: 70:00, more than the chain's 56:15.
        var request = Request();
        var timeline = TimelineMaker.For(request with { Posts = request.Posts with { Posts = [Post(-3600, 120)] } });

        Assert.Equal("01:10:00", $"{timeline.Lead}");
        Assert.Equal(["Call 00:50:00 01:00:00", "PostsManned 01:00:00", "Huddle 01:13:45 01:16:45"], timeline.ForGo.Steps.Take(3).Select(Line));
    }

    /// <summary>ppe-durations.csv: PD-04, PD-06 (published), PD-15, PD-16 (proposals).</summary>
    [Fact]
    public void Dressing_takes_what_is_published_for_the_set_in_force_or_what_the_site_says()
    {
        var printed = ReferenceFile.Rows("ppe-durations.csv").ToDictionary(row => row["id"]);
        double Of(string id, string column) => printed[id].Number(column);
        // Nine in ten of a normal distribution are below mean + 1.2816 standard deviations (table of the normal distribution).
        int NineInTen(string id, double sem) => (int)Math.Ceiling(Of(id, "seconds_min") + 1.2816 * sem * Math.Sqrt(21));

        Assert.Equal(((int)Of("PD-15", "seconds_max"), (int)Of("PD-15", "seconds_min")), Pair(TimelineSettings.DonningFor(PrecautionSet.Airborne | PrecautionSet.Contact)));
        Assert.Equal((360, 180), Pair(TimelineSettings.DonningFor(PrecautionSet.Droplet)));
        Assert.Equal((NineInTen("PD-04", 7.15), (int)Math.Ceiling(Of("PD-04", "seconds_min"))), Pair(TimelineSettings.DonningFor(PrecautionSet.Contact)));
        Assert.Equal((0, 0), Pair(TimelineSettings.DonningFor(PrecautionSet.None)));
        Assert.Equal(((int)Of("PD-16", "seconds_max"), (int)Of("PD-16", "seconds_max")), Pair(new TimelineSettings().DoffingFor(PrecautionSet.Airborne)));
        var off = NineInTen("PD-06", 6.33) + (int)Of("PD-03", "seconds_min");
        Assert.Equal((off, off), Pair(new TimelineSettings().DoffingFor(PrecautionSet.Contact)));

        var own = new TimelineSettings { Donning = new(200, 150, "drill", IsAssumed: false), Doffing = StepTime.Of(240, "drill", isAssumed: false) };
        // 2 turns of 3:20.
        Assert.Contains("Donning 01:26:50 01:33:30", TimelineMaker.For(Request() with { Settings = own }).ForGo.Steps.Select(Line));
        Assert.Equal(240, own.DoffingFor(PrecautionSet.Airborne).PlannedSeconds);

        static (int, int) Pair(StepTime time) => (time.PlannedSeconds, time.UrgentSeconds);
    }

    [Fact]
    public void A_shift_change_names_the_steps_that_fall_into_it_and_an_unknown_one_is_no_agreement()
    {
        Assert.Null(TimelineMaker.For(Request()).ForGo.ShiftConflicts);
        Assert.Empty(TimelineMaker.For(Request() with { ShiftChanges = [Go.AddHours(5)], ShiftChangeLasts = TimeSpan.FromMinutes(15) }).ForGo.ShiftConflicts!.Value);

        // 1:20:00 to 1:24:00: kit until 1:21:15, hand hygiene until 1:21:30, donning from 1:21:30. The call and the huddle are over, loading has not begun.
        var conflict = Assert.Single(TimelineMaker.For(Request() with { ShiftChanges = [Go.AddMinutes(-38)], ShiftChangeLasts = TimeSpan.FromMinutes(2) }).ForGo.ShiftConflicts!.Value);
        Assert.Equal(["Kit", "HandHygiene", "Donning"], conflict.Steps.Select(step => $"{step}"));

        // Nobody waits for air or cleaning: 2:50 falls into the origin's airing and the cleaning of the incubator alone.
        Assert.Empty(TimelineMaker.For(Request() with { ShiftChanges = [Go.AddMinutes(50)], ShiftChangeLasts = TimeSpan.FromMinutes(2) }).ForGo.ShiftConflicts!.Value);
    }

    private static readonly Gen<StepTime> Lasting = Gen.Select(Gen.Int[0, 900], Gen.Int[0, 900]).Select((planned, urgent) => new StepTime(planned, urgent, "generated"));

    private static readonly Gen<TimelineRequest> Requests =
        from times in Lasting.Array[8]
        from turns in Gen.Int[1, Turns.Max].Array[3]
        from posts in Gen.Select(Gen.Int[-1800, 600], Gen.Int[1, 600]).Array[0, 5]
        from now in Gen.Int[-7200, 600]
        from support in Gen.Enum<RespiratorySupport>()
        from precautions in Gen.Int[0, 7]
        from helper in Gen.Bool
        from earliest in Gen.Int[0, 900]
        let request = Request()
        select request with
        {
            Now = Go.AddSeconds(now),
            Support = support,
            Precautions = (PrecautionSet)precautions,
            WithHelper = helper,
            Arrival = new(earliest, earliest + 60, earliest + 200),
            Posts = request.Posts with { Posts = [.. posts.Select(post => Post(post.Item1, post.Item1 + post.Item2))] },
            Settings = new()
            {
                Call = times[0],
                Huddle = times[1],
                Kit = times[2],
                Donning = times[3],
                Loading = times[4],
                TimeOut = times[5],
                Wipe = times[6],
                Doffing = times[7],
                DonningTurns = new(turns[0], turns[1]),
                DoffingAtOnce = turns[2],
            },
        };

    // Seen to fail: with the urgent figure taken even where it is the longer one, and with the branch of the posts left out of the lead.
    [Fact]
    public void Everything_fits_at_the_earliest_go_and_urgent_is_never_longer() =>
        Requests.Sample(
            request =>
            {
                var (planned, urgent) = (TimelineMaker.For(request), TimelineMaker.For(request with { Tempo = Tempo.Urgent }));

                Assert.True(urgent.Lead <= planned.Lead && urgent.EarliestGo <= planned.EarliestGo && urgent.Short <= planned.Short);
                Assert.All(new[] { planned, urgent }, timeline =>
                {
                    Assert.InRange(timeline.EarliestGo - timeline.Now - timeline.Lead, TimeSpan.Zero, TimeSpan.FromSeconds(59.999));
                    Assert.Equal(0, timeline.EarliestGo.Second);
                    Assert.Equal(timeline.FromNow is not null, timeline.Short > TimeSpan.Zero);
                    Assert.Equal(timeline.Short > TimeSpan.Zero, timeline.Late.Length > 0);
                    Assert.DoesNotContain((timeline.FromNow ?? timeline.ForGo).Steps, step => step.IsBeforeGo && step.From < timeline.Now);
                    Assert.All(timeline.ForGo.Steps, step => Assert.True(step.From <= step.To));
                    Assert.Equal(timeline.ForGo.Steps.Min(step => step.From), timeline.ForGo.Begin);
                });
            },
            iter: 2000);

    // Seen to fail: with an earliest go that is never before the departure.
    [Fact]
    public void A_later_go_never_has_less_time() =>
        Gen.Select(Requests, Gen.Int[0, 7200], Gen.Enum<Tempo>()).Sample(
            (request, later, tempo) =>
            {
                var at = TimelineMaker.For(request with { Tempo = tempo });
                var after = TimelineMaker.For(Moved(request, later) with { Tempo = tempo });

                Assert.True(after.Short <= at.Short);
                Assert.Equal((at.Lead, FullMinute(at.EarliestGo)), (after.Lead, FullMinute(after.EarliestGo)));
                Assert.Subset(at.Late.Select(step => step.Kind).ToHashSet(), after.Late.Select(step => step.Kind).ToHashSet());
            },
            iter: 2000);

    // Within the minute that the earliest go is rounded up to lie departures that fit. Seen to fail: with the full minute always.
    [Fact]
    public void A_go_that_fits_is_never_before_the_earliest() =>
        Gen.Select(Requests, Gen.Int[-90, 90], Gen.Enum<Tempo>()).Sample(
            (request, spare, tempo) =>
            {
                var lead = TimelineMaker.For(request with { Tempo = tempo }).Lead;
                var go = Moved(request, (int)(request.Now + lead - Go).TotalSeconds + spare) with { Tempo = tempo };

                var timeline = TimelineMaker.For(go);

                Assert.Equal(spare >= 0, timeline.Short == TimeSpan.Zero);
                Assert.Equal(spare >= 0, timeline.EarliestGo <= go.Go);
                Assert.Equal(TimeSpan.Zero, TimelineMaker.For(Moved(go, (int)(timeline.EarliestGo - go.Go).TotalSeconds)).Short);
            },
            iter: 2000);

    /// <summary>Everything that is counted from the departure, so many seconds later.</summary>
    private static TimelineRequest Moved(TimelineRequest request, int later) => request with
    {
        Go = request.Go.AddSeconds(later),
        Posts = request.Posts with
        {
            Posts = [.. request.Posts.Posts.Select(post => post with { Window = new(post.Window.From.AddSeconds(later), post.Window.To.AddSeconds(later)) })],
            Elevators = [.. request.Posts.Elevators.Select(car => car with { Captured = new(car.Captured.From.AddSeconds(later), car.Captured.To.AddSeconds(later)) })],
        },
    };

    private static DateTimeOffset FullMinute(DateTimeOffset instant) => instant.AddSeconds((60 - instant.Second) % 60);

    [Fact]
    public void A_plan_has_both_tempos_of_each_way_with_the_times_of_its_posts_and_its_airing()
    {
        var graph = FloorGraphBuilder.Build(DemonstrationHospital.Build());
        var plan = Assert.IsType<PlanOutcome.Made>(TransportPlan.Make(graph, new()
        {
            Route = new()
            {
                From = "D-2.14",
                To = "N-4.03",
                Precautions = PrecautionSet.Airborne,
                Travel = new() { Conveyance = Conveyance.AssumedIncubator, Departure = Go, HeldElevators = true, WithHelper = true },
            },
            Support = RespiratorySupport.Cpap,
            Demand = null,
            MadeAt = Go.AddHours(-1),
        })).Plan;

        Assert.Equal(
            plan.Routes.Routes.SelectMany(route => new[] { (route.Id, Tempo.Planned), (route.Id, Tempo.Urgent) }),
            plan.Timelines.Select(timeline => (timeline.RouteId, timeline.Tempo)));
        foreach (var (route, posts, timeline) in plan.Routes.Routes.Zip(plan.PostsByRoute, plan.Timelines.Where(t => t.Tempo == Tempo.Planned)))
        {
            TimelineStep Step(TimelineStepKind kind) => timeline.ForGo.Steps.First(step => step.Kind == kind);
            Assert.Equal(Go.AddSeconds(route.Time.NearlyAlwaysSeconds), Step(TimelineStepKind.Arrival).To);
            Assert.Equal(posts.Posts.Posts[0].Window.From, Step(TimelineStepKind.PostsManned).From);
            Assert.Equal(posts.Posts.Elevators.Select(car => car.GivenBack), timeline.ForGo.Steps.Where(step => step.Kind == TimelineStepKind.ElevatorGivenBack).Select(step => step.From));
            var (origin, airing) = (Step(TimelineStepKind.Airing), plan.Airing.Single(place => place.Place == "D-2.14"));
            Assert.Equal(("D-2.14", TimeSpan.FromMinutes(airing.Time.Minutes)), (origin.Place, origin.To - origin.From));
            Assert.InRange(origin.From, Go, Go.AddSeconds(route.Time.NearlyAlwaysSeconds));

            // The last place of the way that is aired is the anteroom, in which people take off.
            var (last, wear) = (timeline.ForGo.Steps.Last(step => step.Kind == TimelineStepKind.Airing), plan.WearByRoute.Single(wear => wear.RouteId == route.Id));
            var anteroom = plan.Airing.Single(place => place.Place == wear.DoffingPlace);
            Assert.Equal((wear.DoffingPlace, Step(TimelineStepKind.Doffing).To, TimeSpan.FromMinutes(anteroom.Time.Minutes)), (last.Place, last.From, last.To - last.From));
        }
    }
}

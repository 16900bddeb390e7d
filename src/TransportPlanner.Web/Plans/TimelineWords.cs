using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Plans;

/// <summary>The timeline in words: what, who, and what no longer fits.</summary>
internal static class TimelineWords
{
    public static string Of(Tempo tempo) => tempo == Tempo.Urgent ? PackTexts.TempoUrgent : PackTexts.TempoPlanned;

    /// <summary>A step in one or two words, for a list of them.</summary>
    public static string Of(TimelineStepKind step) => step switch
    {
        TimelineStepKind.Call => "call",
        TimelineStepKind.Huddle => "huddle",
        TimelineStepKind.Kit => "kit, gas and batteries",
        TimelineStepKind.HandHygiene => "hand hygiene",
        TimelineStepKind.Donning => "dressing",
        TimelineStepKind.Loading => "loading",
        TimelineStepKind.Trial => "trial on the transport ventilator",
        TimelineStepKind.TimeOut => "time-out",
        TimelineStepKind.Wipe => "wiping",
        TimelineStepKind.GoCheck => "go check",
        TimelineStepKind.HelperDonning => "helper's dressing",
        TimelineStepKind.ReceiverDonning => "receiver's dressing",
        TimelineStepKind.PostsManned => "posts",
        TimelineStepKind.ElevatorCaptured => "elevator",
        TimelineStepKind.Arrival => "arrival",
        TimelineStepKind.HandOver => "hand-over",
        TimelineStepKind.Doffing => "taking off",
        TimelineStepKind.PostsReleased => "release of the posts",
        TimelineStepKind.ElevatorGivenBack => "elevator given back",
        TimelineStepKind.Airing => "airing",
        TimelineStepKind.RoomCleaning => "cleaning of the room",
        TimelineStepKind.IncubatorCleaning => "cleaning of the incubator",
        _ => throw new ArgumentOutOfRangeException(nameof(step), step, "No words for this step."),
    };

    /// <summary>A step as a line of the timeline: the word for it, and what is done.</summary>
    public static (string What, string How) Line(TimelineStepResponse step, TimelineSheet sheet)
    {
        var titles = sheet.Titles;
        var careGivers = $"{titles.Lead}, {titles.Therapist} and {titles.Nurse}";
        return step.Step switch
        {
            TimelineStepKind.Call => ("Call", "everybody on the call list, until all are there"),
            TimelineStepKind.Huddle => ("Huddle", "the huddle card, read aloud; anybody may ask"),
            TimelineStepKind.Kit => ("Kit, gas, batteries", $"{titles.Therapist} and {titles.Nurse}: gathered, checked, gauges written"),
            TimelineStepKind.HandHygiene => ("Hand hygiene", "the last bare-handed minute is over"),
            TimelineStepKind.Donning => ("Dress", step.Turns switch
            {
                null => $"{careGivers}, each watched by another",
                1 => $"{careGivers}, all at once; each is checked by another before entering",
                _ => $"{careGivers}, in pairs that watch each other: {step.Turns} turns",
            }),
            TimelineStepKind.Loading => ("Load", "infant into the incubator; tube, lines and wires secured and given to one person"),
            TimelineStepKind.Trial => ("Trial", $"on the transport ventilator; the {titles.Therapist} watches"),
            TimelineStepKind.TimeOut => ("Time-out", "spoken: bands, tag, lines, flow at the patient end"),
            TimelineStepKind.Wipe => ("Wipe", "outside and rails of the incubator, wet for the contact time"),
            TimelineStepKind.GoCheck => ("Go check", $"support, flow, fraction, gauge read again; {titles.Lead} and {titles.Security} each say go"),
            TimelineStepKind.HelperDonning => ($"{RoleTitles.Capital(titles.Helper)} dresses", "by infection prevention's card; hands clean and bare"),
            TimelineStepKind.ReceiverDonning => ($"{RoleTitles.Capital(titles.Receiver)} and {titles.Watcher} dress", $"before the team can be at {sheet.Plan.To} at the earliest{step.Turns switch
            {
                null => "",
                1 => "; both at once, then each checks the other",
                _ => $"; they watch each other: {step.Turns} turns",
            }}"),
            TimelineStepKind.PostsManned => ("Posts manned", $"the last one by {sheet.By(step.To)}; each reports on the radio"),
            TimelineStepKind.ElevatorCaptured => ($"{step.Place} captured", $"kept until the team is in, nearly always by {sheet.NotBefore(step.To)}"),
            TimelineStepKind.Arrival => ("Arrival", $"usually; nearly always by {sheet.NotBefore(step.To)}"),
            TimelineStepKind.HandOver => ("Hand-over", $"over nearly always by {sheet.NotBefore(step.To)}"),
            TimelineStepKind.Doffing => ("Take off", $"{Watched(step)}, the {titles.Watcher} reads the steps; no hurry; nearly always by {sheet.NotBefore(step.To)}"),
            TimelineStepKind.PostsReleased => ("Posts released", $"not before, and by word of {titles.Security}"),
            TimelineStepKind.ElevatorGivenBack => ($"{step.Place} given back", "not before, by word; cleaned where the site asks"),
            TimelineStepKind.Airing => ($"Air of {step.Place} renewed", $"not before{(IsWhereTheyTakeOff(step, sheet) ? ", after the last has taken off" : "")}; then cleaning and sign-off: a person opens it"),
            TimelineStepKind.RoomCleaning => ($"{step.Place} cleaned", "begun not before its air is renewed; a person opens it"),
            TimelineStepKind.IncubatorCleaning => ("Incubator", $"cleaned, refilled, charged; ready nearly always by {sheet.NotBefore(step.To)}{(step.Assumed == true ? ", assumed" : "")}"),
            _ => throw new ArgumentOutOfRangeException(nameof(step), step, "No words for this step."),
        };
    }

    /// <summary>How many take off at once: of three care givers, that follows from the turns. Without turns an earlier release counted one person's time.</summary>
    private static string Watched(TimelineStepResponse step) => step.Turns switch
    {
        null => "one by one",
        1 => "all at once, each with a watcher of its own",
        2 => "two at a time, each with a watcher of its own: 2 turns",
        _ => $"one by one: {step.Turns} turns",
    } + (step is { Turns: not null, Assumed: true } ? ", assumed" : "");

    private static bool IsWhereTheyTakeOff(TimelineStepResponse airing, TimelineSheet sheet) =>
        airing.Place == sheet.Wear?.DoffingPlace && airing.From == sheet.Step(TimelineStepKind.Doffing)?.To;

    /// <summary>What stands at the left of a line, and wherever else the step is named: the latest beginning before go, the usual or earliest instant after it.</summary>
    public static string Time(TimelineStepResponse step, TimelineSheet sheet) => step.BeforeGo ? sheet.By(step.From) : sheet.NotBefore(TimelineSheet.At(step));

    /// <summary>How long a step lasts: <c>4:30</c>, minutes and seconds; empty where other parts of the plan give it.</summary>
    public static string Lasts(TimelineStepResponse step) =>
        step.Source is null || !step.BeforeGo ? "" : PlanWords.Clock((step.To - step.From).TotalSeconds);

    /// <summary>One sentence: whether everything fits before go, else by how much it does not.</summary>
    public static string Fit(TimelineSheet sheet)
    {
        var chosen = sheet.Chosen!;
        var (go, made) = (sheet.By(sheet.Plan.Routes.DepartAt), sheet.By(sheet.Plan.MadeAt));
        return chosen.ShortSeconds == 0
            ? $"At the {Of(chosen.Tempo)} tempo {PlanWords.Clock(chosen.LeadSeconds)} min:s lie between call and go: the call goes out by {sheet.By(chosen.ForGo.Begin)}, for go at {go}."
            : $"At the {Of(chosen.Tempo)} tempo {PlanWords.Clock(chosen.LeadSeconds)} min:s lie between call and go; for go at {go}, counted from {made}, when this plan was made, {PlanWords.Clock(chosen.ShortSeconds)} are missing.";
    }

    /// <summary>What no longer fits, by name.</summary>
    public static string Late(RouteTimelineResponse timeline)
    {
        var late = timeline.Late.Distinct().ToList();
        var before = timeline.ForGo.Steps.Count(step => step.BeforeGo);
        return timeline.Late.Count >= before - 1
            ? $"Next to nothing of the {before} steps fits."
            : $"Had to begin before: {string.Join(", ", late.Select(Of))}.";
    }

    /// <summary>What may be done about it: the earliest departures that fit, urgent first.</summary>
    public static string Instead(TimelineSheet sheet)
    {
        var earliest = new[] { Tempo.Urgent, Tempo.Planned }.Select(tempo => sheet.At(tempo)).OfType<RouteTimelineResponse>()
            .Select(timeline => $"{sheet.By(timeline.EarliestGo)} at the {Of(timeline.Tempo)} tempo");
        return $"Ready at the earliest by {string.Join(", by ", earliest)}, if the call went out at {sheet.By(sheet.Plan.MadeAt)}. Change the plan to that departure; or who must go now goes now, and the {sheet.Titles.Lead} says what is left out.";
    }

    /// <summary>One sentence for each shift change that falls into it, or that it is unknown.</summary>
    public static IEnumerable<string> Shifts(TimelineSheet sheet) => sheet.Shown!.ShiftConflicts is not { } conflicts
        ? ["When shifts change is unknown: the site has not said, so no overlap was looked for."]
        : conflicts.Count == 0
            ? ["No shift change between call and taking off, by the site's times."]
            : conflicts.Select(conflict =>
                $"Shift change at {sheet.By(conflict.At)}, people busy {sheet.By(conflict.From)} to {sheet.NotBefore(conflict.To)}: falls on {string.Join(", ", conflict.Steps.Select(Of))}. Agree now who stays.");

    /// <summary>What cannot be done in gloves and gown, or must not be fetched from under them. Common practice and this project's own list.</summary>
    public static IEnumerable<string> BareHanded(TimelineSheet sheet)
    {
        var (plan, titles) = (sheet.Plan, sheet.Titles);
        var helper = plan.Given.WithHelper ?? true ? titles.Helper : "one who touches no infant";
        yield return "Phone and pager: off the body, silent, or into a wipeable sleeve outside";
        yield return $"Badge and keys: to the {helper}, who opens the doors";
        yield return "Watch and rings off; glasses and hair fixed, so that nobody touches the face";
        yield return "Infant-protection tag set for transfer: in its usual mode it may lock a door or stop a car";
        if (sheet.DrawsGas)
        {
            yield return "Gauges read and written on the strips; valves opened, flow felt";
        }

        yield return plan.Precautions.Contains(Precaution.Airborne) ? "Each person's own fit-tested respirator at hand, gown and gloves in size"
            : plan.Precautions.Contains(Precaution.Droplet) ? "Mask, eye protection, gown and gloves in each person's size at hand"
            : "Gown and gloves in each person's size at hand";
        yield return "Strip, huddle card and role label at hand; pen and spare gloves with the kit";
    }
}

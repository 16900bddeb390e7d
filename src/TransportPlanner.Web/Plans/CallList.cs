using System.Text.Json;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Plans;

/// <summary>Whom to call for a transport, and what to say.</summary>
/// <param name="Key">Stable name of the role, as the API writes it, such as <c>receivingNurse</c>.</param>
/// <param name="Role">The role.</param>
/// <param name="Title">What the site calls it.</param>
/// <param name="Message">Category of the precautions, place and time; nothing about the infant, its support or its family.</param>
/// <param name="Due">Instants in the message by which something is to be done, in their order: past one of them, whoever is called can no longer do it in time.</param>
internal sealed record CallMessage(string Key, PlanRole Role, string Title, string Message, IReadOnlyList<DateTimeOffset> Due);

/// <summary>One message for each role, short enough for a pager and fit to be overheard.</summary>
internal static class CallList
{
    /// <summary>In the order in which they are called: whoever takes longest first. Empty in a version that was made before timelines were planned.</summary>
    public static IReadOnlyList<CallMessage> Of(TimelineSheet sheet) => sheet.Shown is null
        ? []
        : [.. sheet.Step(TimelineStepKind.Call)!.Who.Select(role => new CallMessage(Key(role), role, sheet.Titles.Of(role), Message(role, sheet), [.. Due(role, sheet).Order()]))];

    public static string Key(PlanRole role) => JsonNamingPolicy.CamelCase.ConvertName($"{role}");

    private static IEnumerable<DateTimeOffset> Due(PlanRole role, TimelineSheet sheet)
    {
        IEnumerable<TimelineStepResponse> Steps(TimelineStepKind kind) => sheet.Shown!.Steps.Where(step => step.Step == kind);
        return role switch
        {
            PlanRole.Security => [.. Steps(TimelineStepKind.PostsManned).Take(1).Concat(Steps(TimelineStepKind.ElevatorCaptured)).Select(step => step.From), sheet.Go],
            PlanRole.ReceivingNurse => [sheet.Step(TimelineStepKind.ReceiverDonning)!.To, sheet.Go],
            PlanRole.DoffingWatcher => [sheet.Step(TimelineStepKind.ReceiverDonning)!.To],
            PlanRole.EnvironmentalServices => [sheet.Go],
            _ => [sheet.Step(TimelineStepKind.Huddle)!.From, sheet.Go],
        };
    }

    private static string Message(PlanRole role, TimelineSheet sheet)
    {
        var (plan, shown) = (sheet.Plan, sheet.Shown!);
        string Place(string number) => PackWords.Place(number, sheet.Names);
        var (from, to, go) = (Place(plan.From), Place(plan.To), sheet.By(shown.Go));
        return string.Join(' ', (string[])[PackText.Of(PackTexts.CallTransport, RoleTitles.Capital(plan.CallSign), PlanWords.Of(plan.Precautions)), .. ToRole()]);

        string[] ToRole() => role switch
        {
            PlanRole.CleanHelper => [PackText.Of(PackTexts.CallHelper, Begins(TimelineStepKind.Huddle), from, go)],
            PlanRole.Security => [PackText.Of(PackTexts.CallSecurity, from, to, sheet.Way.Id, go), .. Posts(), PackTexts.CallReport],
            PlanRole.ReceivingNurse =>
            [
                PackText.Of(
                    plan.Precautions.Contains(Precaution.Airborne) ? PackTexts.CallReceiverNegative : PackTexts.CallReceiver,
                    to, Begins(TimelineStepKind.Arrival), sheet.NotBefore(sheet.Step(TimelineStepKind.Arrival)!.To), go, Ends(TimelineStepKind.ReceiverDonning)),
            ],
            PlanRole.DoffingWatcher => [PackText.Of(PackTexts.CallWatcher, Place(sheet.Wear?.DoffingPlace ?? plan.To), Ends(TimelineStepKind.ReceiverDonning), Begins(TimelineStepKind.Doffing))],
            PlanRole.EnvironmentalServices => [PackText.Of(PackTexts.CallCleaner, from, to, go), .. Cleaning(), PackTexts.CallNotEnter],
            _ => [PackText.Of(PackTexts.CallHuddle, Begins(TimelineStepKind.Huddle), from, go)],
        };

        string Begins(TimelineStepKind kind) => TimelineWords.Time(sheet.Step(kind)!, sheet);
        string Ends(TimelineStepKind kind) => sheet.By(sheet.Step(kind)!.To);
        IEnumerable<TimelineStepResponse> Steps(TimelineStepKind kind) => shown.Steps.Where(step => step.Step == kind);
        string[] Posts() =>
        [
            .. sheet.Posts is { Officers.Count: > 0 and var count } ? [PackText.Of(count == 1 ? PackTexts.CallOfficer : PackTexts.CallOfficers, count)] : Array.Empty<string>(),
            .. sheet.Posts is { } posts && PackWords.Open(posts) is { } open ? [open] : Array.Empty<string>(),
            .. Steps(TimelineStepKind.PostsManned).Take(1).Select(step => PackText.Of(PackTexts.CallFirstPost, TimelineWords.Time(step, sheet))),
            .. Steps(TimelineStepKind.ElevatorCaptured).Select(step => PackText.Of(PackTexts.CallCaptured, step.Place, TimelineWords.Time(step, sheet))),
        ];
        string[] Cleaning() =>
        [
            .. Steps(TimelineStepKind.ElevatorGivenBack)
                .Select(step => (Step: step, Car: sheet.Posts?.Elevators.FirstOrDefault(car => car.Name == step.Place)))
                .Where(back => back.Car is { IsCleaned: true })
                .Select(back => PackText.Of(PackTexts.CallCleaned, back.Step.Place, sheet.NotBefore(back.Step.From), back.Car!.ReturnLanding)),
            .. Steps(TimelineStepKind.Airing).Take(1).Select(step => PackText.Of(PackTexts.CallAired, step.Place, sheet.NotBefore(step.To))),
        ];
    }
}

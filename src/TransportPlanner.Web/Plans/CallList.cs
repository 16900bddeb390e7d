using System.Text.Json;
using TransportPlanner.Core.Plans;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Plans;

/// <summary>Whom to call for a transport, and what to say.</summary>
/// <param name="Key">Stable name of the role, as the API writes it, such as <c>receivingNurse</c>.</param>
/// <param name="Role">The role.</param>
/// <param name="Title">What the site calls it.</param>
/// <param name="Message">Category of the precautions, place and time; nothing about the infant, its support or its family.</param>
internal sealed record CallMessage(string Key, PlanRole Role, string Title, string Message);

/// <summary>One message for each role, short enough for a pager and fit to be overheard.</summary>
internal static class CallList
{
    /// <summary>In the order in which they are called: whoever takes longest first. Empty in a version that was made before timelines were planned.</summary>
    public static IReadOnlyList<CallMessage> Of(TimelineSheet sheet) => sheet.Shown is null
        ? []
        : [.. sheet.Step(TimelineStepKind.Call)!.Who.Select(role => new CallMessage(Key(role), role, sheet.Titles.Of(role), Message(role, sheet)))];

    public static string Key(PlanRole role) => JsonNamingPolicy.CamelCase.ConvertName($"{role}");

    private static string Message(PlanRole role, TimelineSheet sheet)
    {
        var (plan, shown) = (sheet.Plan, sheet.Shown!);
        string Place(string number) => PackWords.Place(number, sheet.Names);
        var transport = $"{RoleTitles.Capital(plan.CallSign)}: transport under {PlanWords.Of(plan.Precautions)} precautions.";
        var go = $"go {sheet.By(shown.Go)}";
        return $"{transport} " + role switch
        {
            PlanRole.CleanHelper => $"Huddle at {Begins(TimelineStepKind.Huddle)}, outside {Place(plan.From)}, {go}. You go ahead and open doors, with clean bare hands.",
            PlanRole.Security => $"{Place(plan.From)} to {Place(plan.To)}, way {sheet.Way.Id}, {go}.{Posts()} Report when all is manned.",
            PlanRole.ReceivingNurse => $"It comes to {Place(plan.To)}: usually {Begins(TimelineStepKind.Arrival)}, nearly always by {sheet.NotBefore(Arrival().To)}, if {go}. Be dressed by {Ends(TimelineStepKind.ReceiverDonning)}. Say when the room is ready{(plan.Precautions.Contains(Precaution.Airborne) ? " and negative" : "")}.",
            PlanRole.DoffingWatcher => $"Come to {Place(sheet.Wear?.DoffingPlace ?? plan.To)}, dressed by {Ends(TimelineStepKind.ReceiverDonning)}. You watch the team take off, from about {Begins(TimelineStepKind.Doffing)}.",
            PlanRole.EnvironmentalServices => $"{Place(plan.From)} to {Place(plan.To)}, {go}.{Cleaning()} Do not enter before a person opens.",
            _ => $"Huddle at {Begins(TimelineStepKind.Huddle)}, outside {Place(plan.From)}, {go}.",
        };

        TimelineStepResponse Arrival() => sheet.Step(TimelineStepKind.Arrival)!;
        string Begins(TimelineStepKind kind) => TimelineWords.Time(sheet.Step(kind)!, sheet);
        string Ends(TimelineStepKind kind) => sheet.By(sheet.Step(kind)!.To);
        string Posts() => (sheet.Posts is { } posts && posts.Officers.Count > 0 ? $" {Web.Posts.PostsWords.Officers(posts.Officers.Count)}." : "")
            + (sheet.Step(TimelineStepKind.PostsManned) is { } manned ? $" First post manned by {TimelineWords.Time(manned, sheet)}." : "")
            + string.Concat(shown.Steps.Where(step => step.Step == TimelineStepKind.ElevatorCaptured).Select(step => $" {step.Place} captured by {TimelineWords.Time(step, sheet)}."));
        string Cleaning() => string.Concat(shown.Steps
                .Where(step => step.Step == TimelineStepKind.ElevatorGivenBack && sheet.Posts?.Elevators.FirstOrDefault(car => car.Name == step.Place) is { IsCleaned: true })
                .Select(step => $" {step.Place} is cleaned after the team has left it, given back not before {sheet.NotBefore(step.From)}."))
            + string.Concat(shown.Steps.Where(step => step.Step == TimelineStepKind.Airing).Take(1).Select(step => $" {step.Place}: air renewed not before {sheet.NotBefore(step.To)}."));
    }
}

using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.EntityFrameworkCore;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Web.Data;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Imports;

/// <summary>Why an import goes no further.</summary>
internal enum ImportProblem
{
    /// <summary>The import is not in the state that this needs; <c>state</c> names the one it is in.</summary>
    WrongImportState,
    /// <summary>Errors or warnings that nobody accepted keep it from being published; <c>errors</c> and <c>openWarnings</c> count them.</summary>
    FindingsOpen,
    /// <summary>Another plan came into force meanwhile: read the import again and look at the differences.</summary>
    ComparedWithAnother,
    /// <summary>The answer does not fit what it is about.</summary>
    AnswerRefused,
}

/// <summary>A building from a file: bring it, read what was found, decide, publish.</summary>
internal static class ImportEndpoints
{
    private static readonly RequestSizeLimitAttribute FileLimit = new(ImportFiles.MaxFileBytes + 1);

    public static IServiceCollection AddImports(this IServiceCollection services) => services
        .AddSingleton<ImportWorker>().AddHostedService(provider => provider.GetRequiredService<ImportWorker>()).AddScoped<ImportDesk>().AddScoped<CorrectionDesk>();

    public static void MapImports(this IEndpointRouteBuilder api)
    {
        api.MapGet("/sites/{siteId}/facts", GetFacts).WithTags("Imports").WithName("getFacts").WithSummary("Facts of the plan in force as a CSV table, to be edited and imported again")
            .WithDescription("One row a place, known by its number; an elevator's facts stand in the row of its car. An import of the format facts takes it.")
            .Produces<string>(200, "text/csv").ProducesProblem(404).WithExample(null, ImportExamples.Facts);
        var imports = api.MapGroup("/imports").WithTags("Imports");
        imports.MapGet("", List).WithName("listImports").WithSummary("Imports, the newest first").WithExample(null, ImportExamples.List);
        imports.MapPost("", Begin).WithName("beginImport").WithSummary("Begins an import; the file follows with PUT")
            .WithExample(ImportExamples.Request, ImportExamples.Summary);
        imports.MapPut("/{importId}/outlines", PutOutlines).WithName("putImportOutlines").WithSummary("Outlines beside a workbook, as CSV, before its file")
            .WithDescription($"Columns number and outline (a polygon as well-known text, in metres). At most {ImportFiles.MaxOutlineBytes >> 20} MiB.")
            .WithMetadata(FileLimit).ProducesProblem(404).ProducesProblem(409).ProducesProblem(413).WithExample(null, null);
        imports.MapPut("/{importId}/file", PutFile).WithName("putImportFile").WithSummary("The file itself; reading begins")
            .WithDescription($"The bytes of the file as body, at most {ImportFiles.MaxFileBytes >> 20} MiB; larger is 413. GET the import for its progress.")
            .WithMetadata(FileLimit).ProducesProblem(404).ProducesProblem(409).ProducesProblem(413).WithExample(null, ImportExamples.Summary);
        imports.MapPost("/{importId}/cancel", Cancel).WithName("cancelImport").WithSummary("Stops the reading of a file")
            .ProducesProblem(404).ProducesProblem(409).WithExample(null, null);
        imports.MapGet("/{importId}", Get).WithName("getImport").WithSummary("An import with findings, proposed joins and differences")
            .ProducesProblem(404).WithExample(null, ImportExamples.Import);
        imports.MapGet("/{importId}/floor-plan", GetPlan).WithName("getImportFloorPlan").WithSummary("The plan that would be published, as GeoJSON")
            .Produces<System.Text.Json.Nodes.JsonObject>(200, "application/geo+json").ProducesProblem(404).ProducesProblem(409).WithExample(null, ImportExamples.Plan);
        imports.MapPost("/{importId}/decisions", Decide).WithName("decideImport").WithSummary("Accepts warnings with a reason, confirms or refuses proposed joins")
            .WithDescription("All answers are taken or none. A key whose words changed meanwhile is refused.")
            .ProducesProblem(404).ProducesProblem(409).ProducesProblem(412).ProducesProblem(422).ProducesProblem(428)
            .WithExample(ImportExamples.Decisions, ImportExamples.Import);
        imports.MapPost("/{importId}/publish", Publish).WithName("publishImport").WithSummary("Publishes the draft as the next version of its site")
            .WithDescription("Needs no error and no warning that nobody accepted. Where anything fails the plan in force stays as it was.")
            .ProducesProblem(404).ProducesProblem(409).ProducesProblem(412).ProducesProblem(422).ProducesProblem(428)
            .WithExample(ImportExamples.Publish, ImportExamples.Published);
    }

    private static Results<ContentHttpResult, ProblemHttpResult> GetFacts(string siteId, FloorPlanStore store, HttpResponse response)
    {
        if (!store.TryFind(siteId, out var site))
        {
            return Problems.NoSite(siteId);
        }

        response.SetEntityTag(site.Plan.Version);
        response.Headers.ContentDisposition = $"attachment; filename={siteId}-facts-version-{site.Plan.Version}.csv";
        return TypedResults.Content(FactsFile.Write(site.Plan), "text/csv", System.Text.Encoding.UTF8);
    }

    private static async Task<Ok<ImportsResponse>> List(PlannerContext context, ImportWorker worker, CancellationToken cancellationToken) =>
        TypedResults.Ok(new ImportsResponse(
            [.. (await ImportList.NewestAsync(context, cancellationToken)).Select(import => ImportSummaryResponse.From(import, worker.StepOf(import.Id)))]));

    private static async Task<Created<ImportSummaryResponse>> Begin(ImportRequest request, ImportDesk desk, CancellationToken cancellationToken)
    {
        var import = await desk.BeginAsync(request, cancellationToken);
        return TypedResults.Created($"{OpenApi.BasePath}/imports/{import.Id}", ImportSummaryResponse.From(import, null));
    }

    private static async Task<Results<NoContent, ProblemHttpResult>> PutOutlines(
        string importId, HttpRequest request, PlannerContext context, ImportDesk desk, CancellationToken cancellationToken) =>
        await FindAsync(context, importId, ImportState.Waiting, cancellationToken) is var (import, refusal) && import is null ? refusal!
        : await desk.KeepAsync(import, request.Body, outlines: true, cancellationToken) ? TypedResults.NoContent()
        : TooLarge(ImportFiles.MaxOutlineBytes);

    private static async Task<Results<Accepted<ImportSummaryResponse>, ProblemHttpResult>> PutFile(
        string importId, HttpRequest request, PlannerContext context, ImportDesk desk, CancellationToken cancellationToken)
    {
        var (import, refusal) = await FindAsync(context, importId, ImportState.Waiting, cancellationToken);
        if (import is null)
        {
            return refusal!;
        }

        if (!await desk.KeepAsync(import, request.Body, outlines: false, cancellationToken))
        {
            return TooLarge(ImportFiles.MaxFileBytes);
        }

        await desk.StartAsync(import, cancellationToken);
        return TypedResults.Accepted($"{OpenApi.BasePath}/imports/{importId}", ImportSummaryResponse.From(import, null));
    }

    private static async Task<Results<NoContent, ProblemHttpResult>> Cancel(string importId, PlannerContext context, ImportWorker worker, CancellationToken cancellationToken)
    {
        var (import, refusal) = await FindAsync(context, importId, ImportState.Reading, cancellationToken);
        if (import is null)
        {
            return refusal!;
        }

        worker.Cancel(importId);
        return TypedResults.NoContent();
    }

    private static async Task<Results<Ok<ImportResponse>, ProblemHttpResult>> Get(
        string importId, PlannerContext context, FloorPlanStore store, ImportWorker worker, HttpResponse response, CancellationToken cancellationToken)
    {
        if (await ImportReview.FindAsync(context, store, importId, cancellationToken) is not { } review)
        {
            return None(importId);
        }

        response.SetEntityTag(review.Import.Version);
        return TypedResults.Ok(ImportResponse.From(review, worker.StepOf(importId)));
    }

    private static async Task<Results<ContentHttpResult, ProblemHttpResult>> GetPlan(
        string importId, PlannerContext context, FloorPlanStore store, CancellationToken cancellationToken) =>
        await ImportReview.FindAsync(context, store, importId, cancellationToken) is not { } review ? None(importId)
        : review.Plan is { } plan ? TypedResults.Content(FloorPlanGeoJson.Write(plan), "application/geo+json")
        : WrongState(review.Import);

    private static async Task<Results<Ok<ImportResponse>, ProblemHttpResult>> Decide(
        string importId, ImportDecisionsRequest body, HttpRequest request, HttpResponse response,
        PlannerContext context, FloorPlanStore store, ImportDesk desk, CancellationToken cancellationToken)
    {
        if (await ImportReview.FindAsync(context, store, importId, cancellationToken) is not { } review)
        {
            return None(importId);
        }

        if (request.RefuseUnlessCurrent(review.Import.Version) is { } refusal)
        {
            return refusal;
        }

        if (review.Import.State != ImportState.Draft)
        {
            return WrongState(review.Import);
        }

        try
        {
            if (await desk.DecideAsync(review, [.. body.Decisions.Select(d => new Answered(d.Key, d.Answer, d.Reason))], body.By, cancellationToken) is { } wrong)
            {
                return Problems.ImpossibleField(ImportProblem.AnswerRefused, $"decisions[{wrong.Index}]", wrong.Words);
            }
        }
        catch (DbUpdateException)
        {
            return Problems.Stale(review.Import.Version + 1);
        }

        context.ChangeTracker.Clear();
        return await Get(importId, context, store, request.HttpContext.RequestServices.GetRequiredService<ImportWorker>(), response, cancellationToken);
    }

    private static async Task<Results<Ok<ImportPublishedResponse>, ProblemHttpResult>> Publish(
        string importId, PublishImportRequest body, HttpRequest request, PlannerContext context, FloorPlanStore store, ImportDesk desk, CancellationToken cancellationToken)
    {
        if (await ImportReview.FindAsync(context, store, importId, cancellationToken) is not { } review)
        {
            return None(importId);
        }

        if (request.RefuseUnlessCurrent(review.Import.Version) is { } refusal)
        {
            return refusal;
        }

        if (review.Import.State != ImportState.Draft)
        {
            return WrongState(review.Import);
        }

        if (body.ComparedWithVersion != (review.InForce?.Version ?? 0))
        {
            return Problems.Conflict(
                ImportProblem.ComparedWithAnother, $"Version {review.InForce?.Version} is in force, not {body.ComparedWithVersion}. Read the import again and look at the differences.",
                ("comparedWithVersion", review.InForce?.Version ?? 0));
        }

        if (!review.CanBePublished)
        {
            return Problems.Impossible(
                ImportProblem.FindingsOpen, review.IsEmpty ? "Every step was taken back: there is nothing to publish." : $"{review.Errors} errors and {review.Open} warnings that nobody accepted. The plan in force is unchanged.",
                ("errorCount", review.Errors), ("openWarnings", review.Open));
        }

        try
        {
            var version = await desk.PublishAsync(review, body.By, cancellationToken);
            return TypedResults.Ok(new ImportPublishedResponse(version.SiteId, version.Number, version.PublishedAt));
        }
        catch (DbUpdateException)
        {
            return Problems.Stale(review.Import.Version + 1);
        }
    }

    private static async Task<(BuildingImport? Import, ProblemHttpResult? Refusal)> FindAsync(
        PlannerContext context, string id, ImportState state, CancellationToken cancellationToken)
    {
        var import = await context.Imports.SingleOrDefaultAsync(i => i.Id == id, cancellationToken);
        return import is null ? (null, None(id)) : import.State == state ? (import, null) : (null, WrongState(import));
    }

    private static ProblemHttpResult None(string id) => Problems.NotFound($"There is no import {id}. GET {OpenApi.BasePath}/imports lists them.");

    private static ProblemHttpResult WrongState(BuildingImport import) => Problems.Conflict(
        ImportProblem.WrongImportState, $"Import {import.Id} is {ImportWords.Of(import.State)}: that does not go now.", ("state", Problems.CodeText(import.State)));

    private static ProblemHttpResult TooLarge(long limit) => TypedResults.Problem(
        $"At most {limit >> 20} MiB: leave out what describes no floor, space, door or coordinate.", statusCode: StatusCodes.Status413PayloadTooLarge);
}

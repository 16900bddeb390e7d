using System.Collections.Concurrent;
using Microsoft.Playwright;

namespace TransportPlanner.Web.Tests.Browser;

/// <summary>A page to be checked, in one of the states that a reader meets it in.</summary>
/// <param name="Route">Its route, as the page itself declares it.</param>
public sealed record PageState(string Route)
{
    /// <summary>Finds its address; a route with a parameter needs one, and something made first, for example a plan.</summary>
    public Func<HttpClient, Task<string>> Address { get; init; } = _ => Task.FromResult(Route);

    /// <summary>What the reader then does, also without script.</summary>
    public Func<IPage, Task> Act { get; init; } = _ => Task.CompletedTask;
}

/// <summary>Every page of the application, for the checks that hold on all of them.</summary>
public static class PageAddresses
{
    private const string Checklist = "/plans/{id}/checklist";
    private const string Correction = "/corrections/{site}/{feature}/{number}";
    private const string FloorPlan = "/floor-plan/{site?}/{level?}/{place?}";

    // One application serves all browser tests, so a plan is the same one in every look.
    private static readonly ConcurrentDictionary<string, Lazy<Task<string>>> Plans = new();
    private static readonly ConcurrentDictionary<string, Lazy<Task<System.Net.HttpStatusCode>>> OneTask = new();

    public static readonly Dictionary<string, PageState> Own = new()
    {
        ["start"] = new("/"),
        ["start-refused"] = new("/") { Act = page => SendAsync(page, "Make the plan") },
        ["start-batteries"] = new("/") { Act = page => page.EvaluateAsync("() => document.querySelector('#batteries').open = true") },
        ["sheet-batteries"] = new("/plans/{id}")
        {
            Address = async client => await PlanAsync(
                client, """[], "batteries": [ { "device": "monitor", "ratedMinutes": 180, "chargePercent": 90, "ageYears": 2 }, { "device": "ventilator" } ]""") + "?only=Batteries",
        },
        ["sheet"] = new("/plans/{id}") { Address = client => PlanAsync(client, """[ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 } ]""") },
        ["sheet-kit"] = new("/plans/{id}") { Address = async client => await PlanAsync(client, "[]") + "?only=Kit" },
        ["checklist"] = new(Checklist) { Address = async client => await PlanAsync(client, "[]") + "/checklist" },
        ["checklist-ticked"] = new(Checklist)
        {
            Address = async client => await PlanAsync(client, "[]") + "/checklist?role=TransportNurse",
            Act = async page =>
            {
                var done = page.Locator("#face-mask");
                if (await done.GetByRole(AriaRole.Button, new() { Name = "Done" }).CountAsync() > 0)
                {
                    await done.GetByRole(AriaRole.Button, new() { Name = "Done" }).ClickAsync();
                }

                await done.GetByText("done: transport nurse").WaitForAsync();

                // As somebody meets it who opens it now, not with the focus of the press.
                await page.GotoAsync(page.Url.Split('#')[0]);
            },
        },
        ["walk"] = new("/plans/{id}/walk") { Address = async client => await PlanAsync(client, "[]") + "/walk" },
        ["report"] = new("/plans/{id}/report") { Address = async client => await PlanAsync(client, "[]") + "/report" },
        ["map-tasks"] = new("/map-tasks/{site?}")
        {
            Address = async client =>
            {
                await OneTask.GetOrAdd("demonstration", site => new(async () =>
                {
                    using var body = new StringContent("""{ "target": "elevator", "targetId": "C1", "text": "did not come", "by": "Security" }""", System.Text.Encoding.UTF8, "application/json");
                    return (await client.PostAsync($"/api/v1/sites/{site}/map-tasks", body)).EnsureSuccessStatusCode().StatusCode;
                })).Value;
                return "/map-tasks/demonstration";
            },
        },
        ["crowds"] = new("/crowds/{site?}") { Address = _ => Task.FromResult("/crowds/demonstration") },
        ["sheet-gas-unknown"] = new("/plans/{id}") { Address = client => PlanAsync(client, "[]") },
        ["pack"] = new("/plans/{id}/pack")
        {
            Address = async client =>
                await PlanAsync(client, """[ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 }, { "gas": "air", "sizeId": "US-E-AIR", "gaugePsi": 1800 } ]""") + "/pack",
        },
        ["pack-gas-unknown"] = new("/plans/{id}/pack") { Address = async client => await PlanAsync(client, "[]") + "/pack?only=Gas" },
        ["go"] = new("/plans/{id}/go")
        {
            Address = async client => await PlanAsync(client, """[ { "gas": "oxygen", "sizeId": "US-E", "gaugePsi": 1500 } ]""") + "/go?role=TeamLead",
        },
        ["go-nobody"] = new("/plans/{id}/go") { Address = async client => await PlanAsync(client, "[]") + "/go" },
        ["calls"] = new("/plans/{id}/calls") { Address = async client => await PlanAsync(client, "[]") + "/calls" },
        ["officers"] = new("/officers/{site?}")
        {
            Address = async client =>
            {
                await PlanAsync(client, "[]");
                return "/officers/demonstration?count=3";
            },
        },
        ["desk"] = new("/desk/{site?}")
        {
            Address = async client =>
            {
                await PlanAsync(client, "[]");
                return "/desk/demonstration";
            },
        },
        ["binder"] = new("/binder/{site?}") { Address = async client => (await BinderAsync(client))[..^4] },
        ["binder-set"] = new("/binder/{site}/set") { Address = async client => await BinderAsync(client) + "?only=19D" },
        ["missing"] = new("/missing"),
        ["kit"] = new("/kit"),
        ["kit-refused"] = new("/kit") { Act = page => SendAsync(page, "List the kit") },
        ["kit-listed"] = new("/kit")
        {
            Act = async page =>
            {
                await page.GetByLabel("CPAP").CheckAsync();
                await page.GetByLabel("airborne").CheckAsync();
                await page.GetByLabel("Weight, g").FillAsync("1850");
                await page.GetByLabel("Gestation, weeks").FillAsync("32");
                await page.GetByLabel("Journey, minutes").FillAsync("9");
                await SendAsync(page, "List the kit");
                await page.GetByRole(AriaRole.Heading, new() { Name = "What must travel" }).WaitForAsync();
            },
        },
        ["gas"] = new("/gas"),
        ["gas-refused"] = new("/gas")
        {
            Act = async page =>
            {
                await page.GetByLabel("Oxygen gauge", new() { Exact = true }).FillAsync("3200");
                await page.GetByLabel("Oxygen cylinder", new() { Exact = true }).SelectOptionAsync("US-E");
                await page.GetByLabel("Oxygen fraction").FillAsync("30");
                await SendAsync(page, "Count the minutes");
                await page.GetByText("Not counted.").WaitForAsync();
            },
        },
        ["gas-counted"] = new("/gas")
        {
            Act = async page =>
            {
                await page.GetByLabel("Oxygen gauge", new() { Exact = true }).FillAsync("1500");
                await page.GetByLabel("Oxygen cylinder", new() { Exact = true }).SelectOptionAsync("US-E");
                await page.GetByLabel("Set flow, L/min").FillAsync("10");
                await page.GetByLabel("Oxygen fraction").FillAsync("0.30");
                await page.GetByLabel("Journey, min").FillAsync("9");
                await page.GetByText("Air: cylinder, compressor").ClickAsync();
                await page.GetByLabel("Air gauge", new() { Exact = true }).FillAsync("1800");
                await page.GetByLabel("Air cylinder", new() { Exact = true }).SelectOptionAsync("US-E-AIR");
                await SendAsync(page, "Count the minutes");
                await page.GetByRole(AriaRole.Heading, new() { Name = "Minutes of gas" }).WaitForAsync();
            },
        },
        ["shelf"] = new("/shelf"),
        ["shelf-refused"] = new("/shelf") { Act = page => SendAsync(page, "Put it on the shelf") },
        ["shelf-filled"] = new("/shelf")
        {
            Address = async client =>
            {
                await StandAsync(client, "O-12", "oxygen", "US-E", 1500, "2026-05-04T02:05:00Z");
                await StandAsync(client, "A-3", "air", "US-E-AIR", 1800, "2026-05-04T01:20:00Z");
                return "/shelf?site=demonstration";
            },
            Act = async page =>
            {
                await page.GetByText("Read the gauge, check the flow, take off").First.ClickAsync();
                await page.GetByLabel("Set flow, L/min").FillAsync("8");
                await page.GetByLabel("Oxygen fraction").FillAsync("1");
                await page.GetByLabel("Journey, min").FillAsync("9");
                await SendAsync(page, "Find the smallest set");
                await page.GetByText("Not counted: A-3").WaitForAsync();
            },
        },
        ["cylinders"] = new("/cylinders"),
        ["cylinders-refused"] = new("/cylinders")
        {
            Act = async page =>
            {
                await page.GetByText("Enter a size from its label").ClickAsync();
                await SendAsync(page, "Enter it");
            },
        },
        ["floor-plan"] = new(FloorPlan) { Address = _ => Task.FromResult("/floor-plan") },
        ["floor-plan-place"] = new(FloorPlan) { Address = _ => Task.FromResult("/floor-plan/demonstration/2/D-2.11") },
        ["floor-plan-close"] = new(FloorPlan)
        {
            Address = _ => Task.FromResult("/floor-plan/demonstration/2/D-2.11"),

            // Opened without a click, which would move the focus into the form: the next Enter would send it.
            Act = page => page.EvaluateAsync("() => document.querySelectorAll('details').forEach(part => part.open = true)"),
        },
        ["floor-plan-elevator"] = new(FloorPlan) { Address = _ => Task.FromResult("/floor-plan/demonstration/2/C1") },
        ["floor-plan-which"] = new(FloorPlan) { Address = _ => Task.FromResult("/floor-plan/demonstration/4?find=isolation") },
        ["imports"] = new("/imports"),
        ["imports-refused"] = new("/imports") { Act = page => SendAsync(page, "Read the file") },
        ["floor-plan-versions"] = new("/floor-plan-versions/{site}") { Address = _ => Task.FromResult("/floor-plan-versions/demonstration") },
        ["correction"] = new(Correction) { Address = _ => Task.FromResult("/corrections/demonstration/passage/DR-0.001?property=clearWidthMetres") },
        ["correction-place"] = new(Correction) { Address = _ => Task.FromResult("/corrections/demonstration/place/D-2.11") },
        ["correction-elevator"] = new(Correction) { Address = _ => Task.FromResult("/corrections/demonstration/elevator/C1") },
        ["import"] = new("/imports/{id}") { Address = ImportAsync },
    };

    /// <summary>Pages that a library draws: they must not leave the origin, the rest of their design is not ours.</summary>
    public static readonly string[] Borrowed = ["/api-reference"];

    /// <summary>Opens a page of either list, and leads one of our own into its state.</summary>
    public static async Task<OpenPage> OpenAsync(Chromium chromium, string page, Look look)
    {
        if (!Own.TryGetValue(page, out var state))
        {
            return await chromium.OpenAsync(page, look);
        }

        var opened = await chromium.OpenAsync(await state.Address(chromium.Client), look);
        await state.Act(opened.Page);
        return opened;
    }

    /// <summary>Makes a plan at the demonstration hospital and gives the address of its sheet.</summary>
    private static Task<string> PlanAsync(HttpClient client, string cylinders) => PlanOfAsync(
        client, $$"""{ "siteId": "demonstration", "from": "D-2.14", "to": "N-4.03", "support": "cpap", "precautions": ["airborne", "contact"], "cylinders": {{cylinders}} }""");

    // One application serves all browser tests: a cylinder that stands on the shelf already is left there.
    private static async Task StandAsync(HttpClient client, string tag, string gas, string size, int psi, string readAt)
    {
        using var content = new StringContent(
            $$"""{ "siteId": "demonstration", "tag": "{{tag}}", "cylinder": { "gas": "{{gas}}", "sizeId": "{{size}}", "gaugePsi": {{psi}} }, "readBy": "Therapist", "readAt": "{{readAt}}" }""",
            System.Text.Encoding.UTF8, "application/json");
        var response = await client.PostAsync(new Uri("/api/v1/shelf", UriKind.Relative), content);
        if (response.StatusCode != System.Net.HttpStatusCode.Conflict)
        {
            response.EnsureSuccessStatusCode();
        }
    }

    /// <summary>Brings the invented annex and waits for its draft.</summary>
    private static async Task<string> ImportAsync(HttpClient client)
    {
        var id = await Imports.ImportFlow.BringAsync(client, "annex", "cobie", Imports.WorkbookFile.Write(Imports.SmallBuilding.Sheets(doorSpaces: "1E15A")).ToArray());
        await Imports.ImportFlow.ReadAsync(client, id);
        return $"/imports/{id}";
    }

    private static readonly Lock BinderGate = new();
    private static Task<string>? _binder;

    /// <summary>The address of the demonstration hospital's standing plans, which are made the first time that anybody asks.</summary>
    public static Task<string> BinderAsync(HttpClient client)
    {
        lock (BinderGate)
        {
            return _binder ??= MakeAsync();
        }

        async Task<string> MakeAsync()
        {
            await Web.Tests.Plans.BinderTests.MadeAsync(client, "demonstration", "{}");
            return "/binder/demonstration/set";
        }
    }

    /// <summary>The address of the sheet of a plan that is made from the body of a request the first time that anybody asks.</summary>
    public static Task<string> PlanOfAsync(HttpClient client, string body) =>
        Plans.GetOrAdd(body, given => new(() => MakePlanAsync(client, given))).Value;

    private static async Task<string> MakePlanAsync(HttpClient client, string body)
    {
        using var content = new StringContent(body, System.Text.Encoding.UTF8, "application/json");
        var response = await client.PostAsync(new Uri("/api/v1/plans", UriKind.Relative), content);
        response.EnsureSuccessStatusCode();
        var plan = System.Text.Json.Nodes.JsonNode.Parse(await response.Content.ReadAsStringAsync())!;
        return $"/plans/{plan["id"]}";
    }

    /// <summary>Presses and waits for the next document.</summary>
    private static async Task SendAsync(IPage page, string button)
    {
        await page.EvaluateAsync("window.isBefore = true");
        await page.GetByRole(AriaRole.Button, new() { Name = button }).ClickAsync();
        await page.WaitForFunctionAsync("!window.isBefore && document.readyState === 'complete'");
    }
}

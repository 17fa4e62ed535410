using System.CommandLine;
using System.Globalization;
using Shimwright.Bench.Devices;
using Shimwright.Cli.Running;
using Shimwright.Storage;

namespace Shimwright.Cli.Commands;

/// <summary>The commands by which whoever is at the machine lets devices and programs in, and sends them away.</summary>
internal static class DeviceCommands
{
    public static Command Create(Terminal terminal)
    {
        var command = new Command("device", "Let a phone or a program in to a bench that is open to the workshop's network, list them, or send one away.\nExample: shimwright device code --db shed.db");
        command.Add(Code(terminal));
        command.Add(Add(terminal));
        command.Add(List(terminal));
        command.Add(Away(terminal));
        command.Add(Open(terminal));
        return command;
    }

    private static Command Code(Terminal terminal)
    {
        Option<string> role = RoleOption("owner");
        return On(terminal, new("code", "Make a code that lets one device in, within ten minutes.\nExample: shimwright device code --role mechanic") { role }, async (parsed, database, cancel) =>
        {
            OneTimeCode code = await database.Devices.MakeCodeAsync(RoleOf(parsed.GetValue(role)!), cancel);
            terminal.Output.WriteLine(OneTimeCode.Shown(code.Text));
            if ((await database.Devices.DoorAsync(cancel)).IsClosed)
            {
                terminal.Error.WriteLine("shimwright: the door is closed after too many wrong codes; find out who typed them, then run 'shimwright device open'");
            }

            terminal.Output.WriteLine($"Lets in one device as {code.Role.ToString().ToLowerInvariant()} within ten minutes. Open the bench on it and type the code.");
            return ExitCode.Done;
        });
    }

    private static Command Add(Terminal terminal)
    {
        var name = new Argument<string>("NAME") { Description = "What the program is called; it stands beside what the program saves." };
        name.Validators.Add(result =>
        {
            if (result.Tokens is [{ Value: var text }] && DeviceSignature.Problem("NAME", text) is { } problem)
            {
                result.AddError($"{problem.Path}: {problem.Found}; allowed is {problem.Allowed}.");
            }
        });
        Option<string> role = RoleOption("reader");
        return On(terminal, new("add", "Let a program in, and print the token that it sends as \"Authorization: Bearer TOKEN\".\nExample: shimwright device add \"parts shop\" --role mechanic") { name, role }, async (parsed, database, cancel) =>
        {
            LetIn program = await database.Devices.AddProgramAsync(parsed.GetValue(name)!, RoleOf(parsed.GetValue(role)!), cancel);
            terminal.Output.WriteLine(program.Token);
            terminal.Error.WriteLine("shimwright: keep the token safe, it is shown only now. It ends after 180 days without use.");
            return ExitCode.Done;
        });
    }

    private static Command List(Terminal terminal) =>
        On(terminal, new("list", "List the devices and programs that were let in.\nExample: shimwright device list --db shed.db"), async (_, database, cancel) =>
        {
            IReadOnlyList<Device> devices = await database.Devices.ListAsync(cancel);
            if (devices.Count == 0)
            {
                terminal.Output.WriteLine("No devices yet. Make a code with 'shimwright device code'.");
            }

            foreach (Device device in devices)
            {
                string state = device.RevokedAt is { } away ? $"sent away {Day(away)}" : $"last used {Day(device.UsedAt)}";
                terminal.Output.WriteLine($"{DeviceSignature.ShortOf(device)}  {device.Role.ToString().ToLowerInvariant(),-8}  {device.Title}{(device.IsProgram ? " (program)" : "")}, {state}");
            }

            return ExitCode.Done;
        });

    private static Command Away(Terminal terminal)
    {
        var id = new Argument<string>("DEVICE") { Description = "The eight letters and digits that 'shimwright device list' shows before it." };
        return On(terminal, new("away", "Send a device or a program away: it can no longer look or save. What it saved is kept.\nExample: shimwright device away 3fa2c01b") { id }, async (parsed, database, cancel) =>
        {
            string text = parsed.GetValue(id)!;
            Device[] found = [.. (await database.Devices.ListAsync(cancel)).Where(d => d.RevokedAt is null && DeviceSignature.ShortOf(d).Equals(text, StringComparison.OrdinalIgnoreCase))];
            if (found is not [{ } device])
            {
                terminal.Error.WriteLine($"shimwright: no device \"{text}\" is in; 'shimwright device list' shows those that are");
                return ExitCode.BadInput;
            }

            await database.Devices.RevokeAsync(device.Id, cancel);
            terminal.Output.WriteLine($"{device.Title} is sent away.");
            return ExitCode.Done;
        });
    }

    private static Command Open(Terminal terminal) =>
        On(terminal, new("open", "Open the door again after too many wrong codes. Find out first who typed them.\nExample: shimwright device open"), async (_, database, cancel) =>
        {
            DoorState before = await database.Devices.DoorAsync(cancel);
            await database.Devices.OpenDoorAsync(cancel);
            terminal.Output.WriteLine(before.IsClosed ? "The door is open again." : $"The door was open, with {before.WrongCodes.ToString(CultureInfo.InvariantCulture)} wrong codes. They are forgotten.");
            return ExitCode.Done;
        });

    private static Command On(Terminal terminal, Command command, Func<ParseResult, BenchDatabase, CancellationToken, Task<int>> work)
    {
        Option<string?> address = DatabaseOption.Create();
        command.Add(address);
        command.SetAction((parsed, cancel) => DatabaseOption.UseAsync(terminal, parsed.GetValue(address), async database =>
        {
            if (database.File is { } file && !File.Exists(file))
            {
                terminal.Error.WriteLine($"shimwright: found no bench in {file}; name its file with --db, or start the bench first with 'shimwright serve --lan'");
                return ExitCode.BadInput;
            }

            await database.PrepareAsync(cancel);
            return await work(parsed, database, cancel);
        }));
        return command;
    }

    private static Option<string> RoleOption(string usual)
    {
        Option<string> role = new("--role") { Description = $"What it may do: reader, mechanic or owner. Default: {usual}.", DefaultValueFactory = _ => usual, HelpName = "reader|mechanic|owner" };
        role.AcceptOnlyFromAmong("reader", "mechanic", "owner");
        return role;
    }

    private static DeviceRole RoleOf(string text) => Enum.Parse<DeviceRole>(text, ignoreCase: true);

    private static string Day(DateTime at) => at.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}

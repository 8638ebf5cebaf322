-- Opens a plan in a Neovim without a screen, as its writer would with a language server, and writes what came to a file: the
-- messages at their lines, the hover over the reaming, and the plan before and after it was laid out.
local server = { os.getenv("ISTHMUS_NODE"), os.getenv("ISTHMUS_PROGRAM"), "serve", "--stdio" }
local seen = {}

local function wait_for(what, taken)
  if not vim.wait(60000, taken, 50) then
    error("waited in vain for " .. what)
  end
end

local function text_of(buffer)
  return table.concat(vim.api.nvim_buf_get_lines(buffer, 0, -1, false), "\n") .. "\n"
end

local function look()
  vim.cmd("edit " .. vim.fn.fnameescape(os.getenv("ISTHMUS_PLAN")))
  local buffer = vim.api.nvim_get_current_buf()
  vim.bo[buffer].filetype = "isthmus"
  local client = vim.lsp.start_client({ name = "isthmus", cmd = server, root_dir = os.getenv("ISTHMUS_LIBRARY") })
  assert(client, "the server did not start")
  vim.lsp.buf_attach_client(buffer, client)

  wait_for("diagnostics", function() return #vim.diagnostic.get(buffer) > 0 end)
  seen.diagnostics = vim.tbl_map(function(each)
    return { line = each.lnum + 1, severity = each.severity, code = each.code, message = each.message }
  end, vim.diagnostic.get(buffer))

  local row = vim.fn.search("^ *ream ")
  local place = { line = row - 1, character = (vim.api.nvim_get_current_line()):find("ream") + 5 }
  local document = { uri = vim.uri_from_bufnr(buffer) }
  local hover = vim.lsp.buf_request_sync(buffer, "textDocument/hover", { textDocument = document, position = place }, 60000)
  seen.hover = hover[client].result.contents.value

  seen.before = text_of(buffer)
  local options = { tabSize = 2, insertSpaces = true }
  local layout = vim.lsp.buf_request_sync(
    buffer,
    "textDocument/formatting",
    { textDocument = document, options = options },
    60000
  )
  vim.lsp.util.apply_text_edits(layout[client].result, buffer, vim.lsp.get_client_by_id(client).offset_encoding)
  seen.after = text_of(buffer)
end

local held, why = pcall(look)
if not held then
  seen.failed = tostring(why)
end
local out = assert(io.open(os.getenv("ISTHMUS_SEEN"), "w"))
out:write(vim.json and vim.json.encode(seen) or vim.fn.json_encode(seen))
out:close()
vim.lsp.stop_client(vim.lsp.get_active_clients(), true)
vim.cmd("qall!")
